//go:build js && wasm

// Command film reads films in a worker of the page: it hears the page's messages, and
// answers each.
package main

import (
	"syscall/js"

	"pivotbench/wasm/message"
	"pivotbench/wasm/reel"
)

func main() {
	page := js.Global()
	var r reel.Reel
	var pixels []byte // used again for each picture
	page.Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		o, buffer := message.Posted(args[0])
		if buffer.Truthy() {
			view := js.Global().Get("Uint8Array").New(buffer)
			if n := view.Length(); len(pixels) != n {
				pixels = make([]byte, n)
			}
			js.CopyBytesToGo(pixels, view)
		}
		if answer := hear(&r, o, pixels); answer != nil {
			message.Post(page, answer.Object(), js.Null())
		}
		return nil
	}))
	message.Post(page, message.Ready{}.Object(), js.Null())
	select {}
}

// hear returns the answer to a message, or nil if it is none of the page's.
func hear(r *reel.Reel, o message.Object, pixels []byte) interface{ Object() message.Object } {
	whole := func(width, height int) bool { return len(pixels) == 4*width*height }
	if m, ok := message.ReadFilmFirst(o); ok && whole(m.Width, m.Height) {
		return r.First(m, pixels)
	}
	if m, ok := message.ReadFilmMarks(o); ok {
		return r.Marks(m)
	}
	if m, ok := message.ReadFilmFrame(o); ok && whole(m.Width, m.Height) {
		return r.Frame(m, pixels)
	}
	if _, ok := message.ReadFilmEnd(o); ok {
		return r.End()
	}
	if m, ok := message.ReadFilmFit(o); ok {
		return r.Fit(m)
	}
	return nil
}
