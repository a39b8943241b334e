//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/wasm/dom"
)

// The sections during which hands are on the table and the screen stays on.
var wakeful = map[string]bool{"measure": true, "instruments": true}

func (p *page) listenWake() {
	dom.Listen(document, "visibilitychange", func(js.Value) {
		p.awake = js.Null()
		p.stayAwake()
	})
}

// stayAwake keeps the screen on while such a section is open and in sight, where
// the browser can. A browser lets go by itself when the page is hidden.
func (p *page) stayAwake() {
	lock := window.Get("navigator").Get("wakeLock")
	if lock.IsUndefined() || document.Get("visibilityState").String() != "visible" {
		return
	}
	switch on := wakeful[p.section]; {
	case on && !p.awake.Truthy():
		settle(lock.Call("request", "screen"), func(held js.Value) {
			p.awake = held
			p.stayAwake() // the section may be another by now
		}, func(js.Value) {}) // a low battery says no: then the screen goes dark as ever
	case !on && p.awake.Truthy():
		p.awake.Call("release")
		p.awake = js.Null()
	}
}
