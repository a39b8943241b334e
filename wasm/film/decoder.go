//go:build js && wasm

package main

import (
	"io"
	"math"
	"syscall/js"
	"time"

	"pivotbench/wasm/container"
	"pivotbench/wasm/device"
)

// A decoder is a VideoDecoder of the browser.
type decoder struct {
	value   js.Value
	frames  chan js.Value
	failed  chan struct{}
	flushed chan struct{}
	awake   chan struct{} // it has taken a picture
	funcs   []js.Func
}

// newDecoder returns a decoder for a film; errNoDecoder where there is none.
func newDecoder(film *container.Film) (decoder, error) {
	if film.Codec == "" || js.Global().Get("VideoDecoder").IsUndefined() {
		return decoder{}, errNoDecoder
	}
	config := map[string]any{"codec": film.Codec, "codedWidth": film.Width, "codedHeight": film.Height}
	if film.Config != nil {
		record := js.Global().Get("Uint8Array").New(len(film.Config))
		js.CopyBytesToJS(record, film.Config)
		config["description"] = record
	}
	can := make(chan bool, 1)
	device.Await(js.Global().Get("VideoDecoder").Call("isConfigSupported", config),
		func(v js.Value) { can <- v.Get("supported").Bool() }, func(js.Value) { can <- false })
	if !<-can {
		return decoder{}, errNoDecoder
	}
	d := decoder{
		frames: make(chan js.Value, 64), failed: make(chan struct{}, 1),
		flushed: make(chan struct{}, 1), awake: make(chan struct{}, 1),
	}
	hear := func(do func(js.Value)) js.Func {
		f := js.FuncOf(func(_ js.Value, args []js.Value) any { do(args[0]); return nil })
		d.funcs = append(d.funcs, f)
		return f
	}
	if !device.Attempt(func() {
		d.value = js.Global().Get("VideoDecoder").New(map[string]any{
			"output": hear(func(frame js.Value) {
				select {
				case d.frames <- frame:
				default: // more than any decoder holds back
					frame.Call("close")
				}
			}),
			"error": hear(func(js.Value) { tell(d.failed) }),
		})
		d.value.Set("ondequeue", hear(func(js.Value) { tell(d.awake) }))
		d.value.Call("configure", config)
	}) {
		return decoder{}, errNoDecoder
	}
	return d, nil
}

func tell(of chan struct{}) {
	select {
	case of <- struct{}{}:
	default: // it is told already
	}
}

// waiting returns the number of pictures that the decoder has not begun with.
func (d *decoder) waiting() int { return d.value.Get("decodeQueueSize").Int() }

// decode hands over a picture.
func (d *decoder) decode(p container.Packet, data js.Value) {
	kind := "delta"
	if p.Key {
		kind = "key"
	}
	if !device.Attempt(func() {
		d.value.Call("decode", js.Global().Get("EncodedVideoChunk").New(map[string]any{
			"type": kind, "timestamp": math.Round(1e6 * p.Time), "data": data,
		}))
	}) {
		tell(d.failed)
	}
}

// flush makes it give what it holds back.
func (d *decoder) flush() {
	if !device.Attempt(func() {
		device.Await(d.value.Call("flush"), func(js.Value) { tell(d.flushed) }, func(js.Value) { tell(d.failed) })
	}) {
		tell(d.failed)
	}
}

// next returns a picture that is ready, or undefined after a while. Its error is io.EOF
// after the last one, and errLost if the decoder has failed.
func (d *decoder) next() (frame js.Value, err error) {
	select {
	case frame = <-d.frames:
		return frame, nil
	default:
	}
	const little = 20 * time.Millisecond // not every browser tells when it is awake
	select {
	case frame = <-d.frames:
	case <-d.failed:
		err = errLost
	case <-d.flushed:
		if tell(d.flushed); len(d.frames) == 0 {
			err = io.EOF
		}
	case <-d.awake:
	case <-time.After(little):
	}
	return frame, err
}

// close lets go of the decoder and its pictures.
func (d *decoder) close() {
	for len(d.frames) > 0 {
		(<-d.frames).Call("close")
	}
	device.Attempt(func() {
		d.value.Set("ondequeue", js.Null()) // it may be about to tell that it is awake
		d.value.Call("close")
	})
	for _, f := range d.funcs {
		f.Release()
	}
}
