//go:build js && wasm

// Package device has what a browser may lack or refuse: storage, the clipboard, sharing,
// keeping the screen on, the microphone, the tilt sensor, files, the address. Each
// function reports whether it worked, and none ends the program.
package device

import (
	"errors"
	"syscall/js"
	"time"

	"pivotbench/wasm/store"
)

var window = js.Global().Get("window")

// Reasons why a device did not do what was asked.
var (
	ErrMissing = errors.New("there is none for pages here")
	ErrRefused = errors.New("it was refused")
	ErrSilent  = errors.New("it says nothing")
)

// Attempt calls a function that the browser may make fail, and reports whether it
// succeeded.
func Attempt(do func()) (done bool) {
	defer func() { _ = recover() }()
	do()
	return true
}

// Await calls one of two functions once a promise is fulfilled or rejected.
func Await(promise js.Value, kept, broken func(js.Value)) {
	var yes, no js.Func
	release := func() { yes.Release(); no.Release() }
	yes = js.FuncOf(func(_ js.Value, args []js.Value) any { kept(args[0]); release(); return nil })
	no = js.FuncOf(func(_ js.Value, args []js.Value) any { broken(args[0]); release(); return nil })
	promise.Call("then", yes, no)
}

// Secure reports whether browsers allow sensors for the address of the page: for https,
// or on the same device.
func Secure() bool { return window.Get("isSecureContext").Bool() }

// Now returns the time since the page began to load, in milliseconds.
func Now() float64 { return window.Get("performance").Call("now").Float() }

// Moment returns the date and time on the device, for a record.
func Moment() string { return time.Now().Format("2006-01-02T15:04:05.000Z07:00") }

// Today returns the date on the device, in its user's format.
func Today() string { return js.Global().Get("Date").New().Call("toLocaleDateString").String() }

// Day returns the day of a record's timestamp, in the user's format. Without a time of
// day a browser would read a date as one in Greenwich.
func Day(when string) string {
	text := store.Day(when)
	if date := js.Global().Get("Date").New(text + "T00:00"); !js.Global().Call("isNaN", date).Bool() {
		return date.Call("toLocaleDateString").String()
	}
	return text
}
