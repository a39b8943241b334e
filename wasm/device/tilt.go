//go:build js && wasm

package device

import (
	"syscall/js"
	"time"

	"pivotbench/core/instrument"
	"pivotbench/core/unit"
)

const (
	tiltTime    = time.Second     // of readings, from the first one on
	tiltPatient = 5 * time.Second // until a sensor that gives no readings counts as silent; a busy phone's can take seconds to wake
)

// A Tilt is the motion sensor.
type Tilt struct{ reading bool }

// Read reads the sensor for a second, once the user has allowed it. asking is called
// while permission is asked for, reading when the readings start. got receives the
// readings, or ErrMissing if pages have no sensor, ErrRefused, or ErrSilent.
func (t *Tilt) Read(asking, reading func(), got func([]instrument.Tilt, error)) {
	kind := window.Get("DeviceOrientationEvent")
	switch {
	case kind.IsUndefined():
		got(nil, ErrMissing)
		return
	case t.reading:
		return
	}
	gather := func() {
		reading()
		t.gather(got)
	}
	if kind.Get("requestPermission").Type() != js.TypeFunction {
		gather()
		return
	}
	asking()
	Await(kind.Call("requestPermission"), func(answer js.Value) {
		if answer.Equal(js.ValueOf("granted")) {
			gather()
		} else {
			got(nil, ErrRefused)
		}
	}, func(js.Value) { got(nil, ErrRefused) })
}

func (t *Tilt) gather(got func([]instrument.Tilt, error)) {
	t.reading = true
	var read []instrument.Tilt
	first := make(chan struct{}, 1)
	heard := js.FuncOf(func(_ js.Value, args []js.Value) any {
		beta, gamma := args[0].Get("beta"), args[0].Get("gamma")
		if beta.Type() != js.TypeNumber || gamma.Type() != js.TypeNumber {
			return nil // a browser without a sensor returns null
		}
		read = append(read, instrument.Tilt{Beta: unit.Angle(beta.Float()) * unit.Degree, Gamma: unit.Angle(gamma.Float()) * unit.Degree})
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
		t.reading = false
		if read == nil {
			got(nil, ErrSilent)
			return
		}
		got(read, nil)
	}()
}
