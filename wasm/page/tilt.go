//go:build js && wasm

package main

import (
	"syscall/js"
	"time"

	"pivotbench/core/instrument"
	"pivotbench/core/unit"
)

// tilts is what the motion sensor read.
type tilts struct {
	zero, along []instrument.Tilt
	reading     bool
}

const (
	tiltTime    = time.Second     // of readings, from the first one
	tiltPatient = 2 * time.Second // until a sensor that says nothing has nothing to say
)

// readTilt reads the sensor for a second, once the user has allowed it.
func (m *instruments) readTilt(into *[]instrument.Tilt) {
	kind := window.Get("DeviceOrientationEvent")
	switch {
	case kind.IsUndefined():
		tiltSaid("There is no tilt sensor for pages here" + insecure() + ": use the tape.")
		return
	case m.tilts.reading:
		return
	case into == &m.tilts.along && m.tilts.zero == nil:
		tiltSaid("Take the zero first: the phone flat on the cloth, face up.")
		return
	}
	if kind.Get("requestPermission").Type() != js.TypeFunction {
		m.gatherTilt(into)
		return
	}
	tiltSaid("Asking for the tilt sensor…")
	refused := func(js.Value) {
		tiltSaid("The tilt sensor was refused: use the tape, or allow motion for this page in the browser's settings.")
	}
	settle(kind.Call("requestPermission"), func(answer js.Value) {
		if answer.Equal(js.ValueOf("granted")) {
			m.gatherTilt(into)
		} else {
			refused(answer)
		}
	}, refused)
}

func (m *instruments) gatherTilt(into *[]instrument.Tilt) {
	m.tilts.reading = true
	tiltSaid("Reading: keep still…")
	var got []instrument.Tilt
	first := make(chan struct{}, 1)
	heard := js.FuncOf(func(_ js.Value, args []js.Value) any {
		beta, gamma := args[0].Get("beta"), args[0].Get("gamma")
		if beta.Type() != js.TypeNumber || gamma.Type() != js.TypeNumber {
			return nil // a browser without a sensor says null
		}
		got = append(got, instrument.Tilt{Beta: unit.Angle(beta.Float()) * unit.Degree, Gamma: unit.Angle(gamma.Float()) * unit.Degree})
		select {
		case first <- struct{}{}:
		default:
		}
		return nil
	})
	window.Call("addEventListener", "deviceorientation", heard)
	go func() {
		select {
		case <-first:
			time.Sleep(tiltTime)
		case <-time.After(tiltPatient):
		}
		window.Call("removeEventListener", "deviceorientation", heard)
		heard.Release()
		m.tilts.reading = false
		if got == nil {
			tiltSaid("The tilt sensor says nothing here: use the tape.")
			return
		}
		*into = got
		if into == &m.tilts.zero {
			m.tilts.along = nil
			tiltSaid("The zero is taken. Now lay the phone along the cue.")
		} else {
			tiltSaid("Read along the cue.")
		}
		m.render(nil)
	}()
}

func tiltSaid(words string) { set(byID("elev-said"), "textContent", words) }
