//go:build js && wasm

package main

import (
	"slices"
	"syscall/js"

	"pivotbench/wasm/device"
	"pivotbench/wasm/reel"
)

// planes copies the luma of pictures as the decoder has them, which is quicker than to draw them
// and to read back their colours.
type planes struct {
	buffer js.Value // Uint8Array of a whole picture
	luma   []byte
}

// planar lists the forms of pictures that begin with their luma, a byte for each pixel.
//
// Source: W3C, WebCodecs, "Pixel Format".
var planar = []string{"I420", "I420A", "I422", "I422A", "I444", "I444A", "NV12"}

// copy returns the luma of a VideoFrame of such a size. ok is false if the browser has it in
// another form, or keeps it to itself.
func (p *planes) copy(frame js.Value, width, height int) (plane reel.Plane, ok bool) {
	if format := frame.Get("format"); format.Type() != js.TypeString || !slices.Contains(planar, format.String()) {
		return plane, false
	}
	if seen := frame.Get("visibleRect"); seen.Get("width").Int() != width || seen.Get("height").Int() != height {
		return plane, false // its pixels are not square
	}
	layout := make(chan js.Value, 1)
	if !device.Attempt(func() {
		if size := frame.Call("allocationSize").Int(); !p.buffer.Truthy() || p.buffer.Length() != size {
			p.buffer = js.Global().Get("Uint8Array").New(size)
		}
		device.Await(frame.Call("copyTo", p.buffer), func(v js.Value) { layout <- v }, func(js.Value) { layout <- js.Undefined() })
	}) {
		return plane, false
	}
	first := <-layout
	if !first.Truthy() {
		return plane, false
	}
	first = first.Index(0)
	offset, stride := first.Get("offset").Int(), first.Get("stride").Int()
	if size := stride * height; len(p.luma) != size {
		p.luma = make([]byte, size)
	}
	js.CopyBytesToGo(p.luma, p.buffer.Call("subarray", offset, offset+len(p.luma)))
	return reel.Plane{
		Width: width, Height: height, Stride: stride, Luma: p.luma,
		Full: frame.Get("colorSpace").Get("fullRange").Truthy(),
	}, true
}
