//go:build js && wasm

package device

import (
	"errors"
	"math"
	"syscall/js"
	"time"
)

// A Microphone is the device's microphone, on from Listen until Shut.
//
// Sound passes through an AnalyserNode, whose newest samples are read about twenty times
// a second. Two readings overlap, and the time between them says how many samples are
// new. An AudioWorklet would deliver every sample once, but it needs a script of its own,
// which the page as one file cannot load.
type Microphone struct {
	stream, context, node js.Value
	samples               js.Value // Float32Array
	bytes                 js.Value // the same memory as bytes
	Rate                  float64  // samples per second
	on                    bool
}

const (
	micSamples = 16384                 // a third of a second, the most that a reading can be late
	micLook    = 40 * time.Millisecond // between two readings
)

// ErrNoMicrophone means that the device has no microphone.
var ErrNoMicrophone = errors.New("no microphone was found")

// Hears reports whether pages can ask for a microphone at all.
func Hears() bool { return !window.Get("navigator").Get("mediaDevices").IsUndefined() }

// OpenMicrophone asks the user for the microphone. got receives it, or ErrRefused,
// ErrNoMicrophone or another error.
func OpenMicrophone(got func(*Microphone, error)) {
	plain := map[string]any{"echoCancellation": false, "noiseSuppression": false, "autoGainControl": false}
	asked := window.Get("navigator").Get("mediaDevices").Call("getUserMedia", map[string]any{"audio": plain})
	Await(asked, func(stream js.Value) {
		context := js.Global().Get("AudioContext").New()
		node := context.Call("createAnalyser")
		node.Set("fftSize", micSamples)
		context.Call("createMediaStreamSource", stream).Call("connect", node)
		context.Call("resume")
		samples := js.Global().Get("Float32Array").New(micSamples)
		got(&Microphone{
			stream: stream, context: context, node: node, samples: samples, on: true,
			bytes: js.Global().Get("Uint8Array").New(samples.Get("buffer")),
			Rate:  context.Get("sampleRate").Float(),
		}, nil)
	}, func(err js.Value) {
		switch err.Get("name").String() {
		case "NotAllowedError", "SecurityError":
			got(nil, ErrRefused)
		case "NotFoundError":
			got(nil, ErrNoMicrophone)
		default:
			got(nil, errors.New(err.Get("message").String()))
		}
	})
}

// Listen calls hear with the newest samples of every reading and its time in
// milliseconds, until the microphone is shut.
func (m *Microphone) Listen(hear func(samples []float32, at float64)) {
	for m.on {
		at := Now()
		hear(m.look(), at)
		time.Sleep(micLook)
	}
}

// look returns the newest samples.
func (m *Microphone) look() []float32 {
	m.node.Call("getFloatTimeDomainData", m.samples)
	raw := make([]byte, 4*micSamples)
	js.CopyBytesToGo(raw, m.bytes)
	out := make([]float32, micSamples)
	for i := range out {
		b := raw[4*i:]
		out[i] = math.Float32frombits(uint32(b[0]) | uint32(b[1])<<8 | uint32(b[2])<<16 | uint32(b[3])<<24)
	}
	return out
}

// Shut turns the microphone off.
func (m *Microphone) Shut() {
	m.on = false
	tracks := m.stream.Call("getTracks")
	for i := range tracks.Length() {
		tracks.Index(i).Call("stop")
	}
	m.context.Call("close")
}
