//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/core/link"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
)

// location is the link in the address bar.
func location() string { return window.Get("location").Get("hash").String() }

// listenAddress follows back, forward and links typed or tapped. What a
// gesture has not yet put there is put there before the page goes away.
func (p *page) listenAddress() {
	dom.Listen(window, "popstate", func(js.Value) { p.openAddress() })
	dom.Listen(window, "hashchange", func(js.Value) { p.openAddress() })
	leave := func(js.Value) {
		p.model = app.Update(p.model, app.Settle{})
		p.leavePlace()
		if p.behind() {
			p.writeAddress("replaceState")
		}
	}
	dom.Listen(window, "pagehide", leave)
	dom.Listen(document, "visibilitychange", func(e js.Value) {
		if document.Get("hidden").Bool() {
			leave(e)
		}
	})
}

func (p *page) openAddress() {
	if p.takeOffer() {
		p.offered = location()
		return
	}
	if location() == p.offered { // a link typed comes as two events
		p.offered = ""
		return
	}
	if p.behind() || len(p.model.Notices) > 0 {
		p.do(app.Open{Link: location()})
	}
}

// behind reports whether the address says something else than the model.
func (p *page) behind() bool {
	there := app.Update(app.Start(), app.First{Link: location()})
	return there.Scene != p.model.Settled || len(there.Notices) > 0
}

// pushAddress makes the settled scene a new entry of the history.
func (p *page) pushAddress() {
	if p.behind() {
		p.writeAddress("pushState")
	}
}

// writeAddress puts the settled scene in the address bar, in one of the
// history's two ways. A browser refuses when it has been asked too often in a
// short time; the next gesture makes up for it.
func (p *page) writeAddress(way string) {
	attempt(func() { window.Get("history").Call(way, nil, "", "#"+p.model.Settled.Format()) })
}

// takeOffer hands a link that brings no shot to whoever offers what it brings.
// The address is the shot's again: opening a link overwrites nothing.
func (p *page) takeOffer() bool {
	address := location()
	take := p.offers[link.Kind(address)]
	if take == nil {
		return false
	}
	p.writeAddress("replaceState")
	take(address)
	return true
}
