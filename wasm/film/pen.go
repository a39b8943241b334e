//go:build js && wasm

package main

import (
	"runtime"
	"syscall/js"

	"pivotbench/wasm/device"
	"pivotbench/wasm/reel"
)

// A pen draws pictures upright in another size.
type pen struct {
	context js.Value // none yet, at first
	rgba    []byte
	drawn   int
}

// often is how many pictures are drawn before garbage is collected. The browser holds a picture
// until then, and Go doesn't know how much memory that takes.
const often = 8

// draw returns the luma of a VideoFrame, set upright by quarter turns clockwise.
func (p *pen) draw(frame js.Value, width, height, turn int, luma []byte) ([]byte, error) {
	if !p.context.Truthy() {
		device.Attempt(func() {
			canvas := js.Global().Get("OffscreenCanvas").New(width, height)
			p.context = canvas.Call("getContext", "2d", map[string]any{"willReadFrequently": true, "alpha": false})
		})
	}
	if !p.context.Truthy() {
		return luma, errNoDecoder
	}
	w, h := width, height
	switch turn {
	case 0:
		p.context.Call("setTransform", 1, 0, 0, 1, 0, 0)
	case 1:
		p.context.Call("setTransform", 0, 1, -1, 0, w, 0)
	case 2:
		p.context.Call("setTransform", -1, 0, 0, -1, w, h)
	case 3:
		p.context.Call("setTransform", 0, -1, 1, 0, 0, h)
	}
	if turn%2 == 1 {
		w, h = h, w
	}
	p.context.Call("drawImage", frame, 0, 0, w, h)
	data := p.context.Call("getImageData", 0, 0, width, height).Get("data")
	if n := data.Length(); len(p.rgba) != n {
		p.rgba = make([]byte, n)
	}
	js.CopyBytesToGo(p.rgba, data)
	if p.drawn++; p.drawn%often == 0 {
		runtime.GC()
	}
	return reel.Luma(p.rgba, luma), nil
}
