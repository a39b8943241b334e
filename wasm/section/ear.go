//go:build js && wasm

package section

import (
	"errors"
	"time"

	"pivotbench/core/instrument"
	"pivotbench/wasm/device"
	"pivotbench/wasm/view"
)

// Times of the microphone.
const (
	earReady   = 200 * time.Millisecond // until the noise of the room is known
	earPatient = 30 * time.Second
)

// toggleEar turns the microphone on until two hits were heard, or off.
func (w *watch) toggleEar() {
	if w.ear != nil {
		w.shutEar(view.ListeningStopped)
		return
	}
	if !device.Hears() {
		w.tell(view.MicrophoneMissing(device.Secure()))
		return
	}
	w.tell(view.MicrophoneAsking)
	device.OpenMicrophone(func(ear *device.Microphone, err error) {
		switch {
		case errors.Is(err, device.ErrRefused):
			w.tell(view.MicrophoneRefused)
		case errors.Is(err, device.ErrNoMicrophone):
			w.tell(view.MicrophoneNone)
		case err != nil:
			w.tell(view.MicrophoneFailed(err))
		case w.ear != nil: // the button was pressed twice
			ear.Shut()
		default:
			w.ear = ear
			w.label()
			go w.hear(ear)
		}
	})
}

// hear waits for two hits.
func (w *watch) hear(ear *device.Microphone) {
	var hits []float64
	var last []float32
	listener := instrument.Listener{Rate: ear.Rate}
	begun, seen, ready := device.Now(), 0.0, false
	ear.Listen(func(newest []float32, at float64) {
		if last == nil {
			last, seen = newest, at
			return
		}
		hits = append(hits, listener.Hear(instrument.Fresh(last, newest, int((at-seen)/1000*ear.Rate)))...)
		last, seen = newest, at
		switch since := time.Duration((at - begun) * float64(time.Millisecond)); {
		case w.ear != ear:
		case len(hits) >= 2:
			w.shutEar("")
			w.note("sound", []float64{hits[1] - hits[0]})
		case len(hits) == 1:
			w.tell(view.HeardHit)
		case since > earPatient:
			w.shutEar(view.HeardNothing)
		case since > earReady && !ready:
			ready = true
			w.tell(view.Listening)
		}
	})
}

// shutEar turns the microphone off.
func (w *watch) shutEar(words string) {
	w.ear.Shut()
	w.ear = nil
	w.tell(words)
	w.label()
}
