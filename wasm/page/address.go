//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
)

// listenAddress handles back, forward, and links that are typed or tapped. It pushes the
// present gesture before the page is left.
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

// openAddress opens the link in the address bar. A typed link causes two events. If bring
// handled the first one, the second finds the address that bring left.
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

// bring opens a link that does not hold a shot, and restores the address of the shot:
// opening such a link overwrites nothing.
func (p *page) bring() {
	link := device.Fragment()
	device.Replace(p.model.Settled.Format())
	p.Do(app.Bring{Link: link})
}

// pushAddress adds the settled shot to the history, unless the address brought it: that
// one stays as it was typed. If the browser refuses, the next gesture tries again.
func (p *page) pushAddress() {
	if !p.opening && !p.model.IsAt(device.Fragment()) {
		device.Push(p.model.Settled.Format())
	}
}
