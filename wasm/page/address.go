//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
)

// listenAddress follows back, forward and links typed or tapped. What a gesture
// has not yet put there is put there before the page goes away.
func (p *page) listenAddress() {
	dom.Listen(dom.Window, "popstate", func(js.Value) { p.openAddress() })
	dom.Listen(dom.Window, "hashchange", func(js.Value) { p.openAddress() })
	dom.Listen(dom.Window, "pagehide", func(js.Value) { p.leave() })
	dom.Listen(dom.Document, "visibilitychange", func(js.Value) {
		if dom.Hidden() {
			p.leave()
		}
	})
}

// openAddress opens what the address asks for. A link typed comes as two events: of
// one that was brought, the second finds what bring left there.
func (p *page) openAddress() {
	switch {
	case app.Brings(device.Fragment()):
		p.bring()
		p.brought = device.Fragment()
	case device.Fragment() == p.brought:
		p.brought = ""
	case !p.model.IsAt(device.Fragment()) || len(p.model.Notices) > 0:
		p.opening = true
		p.Do(app.Open{Link: device.Fragment()})
		p.opening = false
	}
}

// bring opens a link that brings no shot. The address is the shot's again: opening
// a link overwrites nothing.
func (p *page) bring() {
	link := device.Fragment()
	device.Replace(p.model.Settled.Format())
	p.Do(app.Bring{Link: link})
}

// pushAddress makes the settled shot a new entry of the history, unless the address
// itself brought it: that stays as it was typed. A browser may refuse; the next
// gesture makes up for it.
func (p *page) pushAddress() {
	if !p.opening && !p.model.IsAt(device.Fragment()) {
		device.Push(p.model.Settled.Format())
	}
}
