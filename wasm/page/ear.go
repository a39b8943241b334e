//go:build js && wasm

package main

import (
	"math"
	"syscall/js"
	"time"

	"pivotbench/core/instrument"
)

// An ear is the microphone, on from the user's press until two hits were heard.
//
// Sound comes through an AnalyserNode, whose newest samples are looked at some
// twenty times a second; two looks overlap, which says how many are new. An
// AudioWorklet would hand over every sample once, but it needs a script of its
// own, which the page as one file can't load.
type ear struct {
	stream, context, node js.Value
	samples               js.Value // Float32Array
	bytes                 js.Value // the same memory
	last                  []float32
	listener              instrument.Listener
}

const (
	earSamples = 16384                  // a third of a second, the most a look can be late
	earLook    = 40 * time.Millisecond  // between two looks
	earReady   = 200 * time.Millisecond // until the room is known
	earPatient = 30 * time.Second
)

// toggleEar turns the microphone on, or off again.
func (w *watch) toggleEar() {
	if w.ear != nil {
		w.shutEar("Stopped listening.")
		return
	}
	devices := window.Get("navigator").Get("mediaDevices")
	if devices.IsUndefined() {
		w.say("There is no microphone for pages here" + insecure() + ": use your thumb.")
		return
	}
	w.say("Asking for the microphone…")
	plain := map[string]any{"echoCancellation": false, "noiseSuppression": false, "autoGainControl": false}
	settle(devices.Call("getUserMedia", map[string]any{"audio": plain}), w.openEar, func(err js.Value) {
		switch err.Get("name").String() {
		case "NotAllowedError", "SecurityError":
			w.say("The microphone was refused: use your thumb, or allow it for this page in the browser's settings.")
		case "NotFoundError":
			w.say("No microphone was found: use your thumb.")
		default:
			w.say("The microphone did not start (" + err.Get("message").String() + "): use your thumb.")
		}
	})
}

// insecure says why a page of this address has no sensors, where that is why.
func insecure() string {
	if window.Get("isSecureContext").Bool() {
		return ""
	}
	return " (it takes https)"
}

func (w *watch) openEar(stream js.Value) {
	if w.ear != nil { // asked twice
		stopTracks(stream)
		return
	}
	context := js.Global().Get("AudioContext").New()
	node := context.Call("createAnalyser")
	node.Set("fftSize", earSamples)
	context.Call("createMediaStreamSource", stream).Call("connect", node)
	context.Call("resume")
	samples := js.Global().Get("Float32Array").New(earSamples)
	w.ear = &ear{
		stream: stream, context: context, node: node, samples: samples,
		bytes:    js.Global().Get("Uint8Array").New(samples.Get("buffer")),
		listener: instrument.Listener{Rate: context.Get("sampleRate").Float()},
	}
	w.label()
	go w.hear(w.ear)
}

// hear waits for two hits.
func (w *watch) hear(e *ear) {
	var hits []float64
	begun, seen, ready := now(), now(), false
	e.last = e.look()
	for w.ear == e {
		time.Sleep(earLook)
		at := now()
		newest := e.look()
		hits = append(hits, e.listener.Hear(instrument.Fresh(e.last, newest, int((at-seen)/1000*e.listener.Rate)))...)
		e.last, seen = newest, at
		switch since := time.Duration((at - begun) * float64(time.Millisecond)); {
		case len(hits) >= 2 && w.ear == e:
			w.shutEar("")
			w.note("sound", []float64{hits[1] - hits[0]})
		case len(hits) == 1:
			w.say("Heard the hit; now the rail.")
		case since > earPatient && w.ear == e:
			w.shutEar("Nothing was heard for half a minute: use your thumb.")
		case since > earReady && !ready:
			ready = true
			w.say("Listening: play the shot. Nothing is recorded or sent.")
		}
	}
}

// look is the newest samples.
func (e *ear) look() []float32 {
	e.node.Call("getFloatTimeDomainData", e.samples)
	raw := make([]byte, 4*earSamples)
	js.CopyBytesToGo(raw, e.bytes)
	out := make([]float32, earSamples)
	for i := range out {
		b := raw[4*i:]
		out[i] = math.Float32frombits(uint32(b[0]) | uint32(b[1])<<8 | uint32(b[2])<<16 | uint32(b[3])<<24)
	}
	return out
}

// shutEar turns the microphone off.
func (w *watch) shutEar(words string) {
	e := w.ear
	w.ear = nil
	stopTracks(e.stream)
	e.context.Call("close")
	w.say(words)
	w.label()
}

func stopTracks(stream js.Value) {
	tracks := stream.Call("getTracks")
	for i := range tracks.Length() {
		tracks.Index(i).Call("stop")
	}
}
