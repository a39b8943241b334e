//go:build js && wasm

package device

import (
	"errors"
	"syscall/js"
)

// A Camera is the device's camera while it films, from OpenCamera until Cut or Shut. A
// <video> element shows what it sees.
type Camera struct{ video, stream, recorder, chunks js.Value }

// ErrNoCamera means that the device has no camera.
var ErrNoCamera = errors.New("no camera was found")

// Films reports whether pages can film at all.
func Films() bool {
	return !window.Get("navigator").Get("mediaDevices").IsUndefined() && !window.Get("MediaRecorder").IsUndefined()
}

// bitsPerSecond is so many that the edges of the balls stay sharp.
const bitsPerSecond = 10e6

// OpenCamera asks the user for the camera and begins to film, without sound. got receives
// the camera, or ErrRefused, ErrNoCamera or another error.
func OpenCamera(video js.Value, got func(*Camera, error)) {
	wish := func(v any) map[string]any { return map[string]any{"ideal": v} }
	asked := window.Get("navigator").Get("mediaDevices").Call("getUserMedia", map[string]any{"video": map[string]any{
		"facingMode": wish("environment"), "width": wish(1280), "height": wish(720), "frameRate": wish(60),
	}})
	Await(asked, func(stream js.Value) {
		c := &Camera{video: video, stream: stream, chunks: js.Global().Get("Array").New()}
		if !Attempt(func() {
			c.recorder = js.Global().Get("MediaRecorder").New(stream, map[string]any{"videoBitsPerSecond": bitsPerSecond})
			c.recorder.Set("ondataavailable", js.FuncOf(func(_ js.Value, args []js.Value) any {
				c.chunks.Call("push", args[0].Get("data"))
				return nil
			}))
			c.recorder.Call("start")
		}) {
			c.Shut()
			got(nil, ErrMissing)
			return
		}
		video.Set("srcObject", stream)
		Await(video.Call("play"), func(js.Value) {}, func(js.Value) {})
		got(c, nil)
	}, func(err js.Value) {
		switch err.Get("name").String() {
		case "NotAllowedError", "SecurityError":
			got(nil, ErrRefused)
		case "NotFoundError", "OverconstrainedError":
			got(nil, ErrNoCamera)
		default:
			got(nil, errors.New(err.Get("message").String()))
		}
	})
}

// Cut ends filming. got receives the film as a file.
func (c *Camera) Cut(got func(file js.Value)) {
	c.recorder.Set("onstop", js.FuncOf(func(js.Value, []js.Value) any {
		kind := c.recorder.Get("mimeType")
		c.Shut()
		got(js.Global().Get("File").New(c.chunks, "stroke", map[string]any{"type": kind}))
		return nil
	}))
	c.recorder.Call("stop")
}

// Shut turns the camera off. What was filmed is dropped.
func (c *Camera) Shut() {
	tracks := c.stream.Call("getTracks")
	for i := range tracks.Length() {
		tracks.Index(i).Call("stop")
	}
	c.video.Set("srcObject", js.Null())
}
