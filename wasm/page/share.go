//go:build js && wasm

package main

import (
	"strings"
	"syscall/js"

	"pivotbench/wasm/app"
)

// link is the address that brings this shot up elsewhere; ok is false where
// nobody else could open it.
func (p *page) link() (address string, ok bool) {
	p.model = app.Update(p.model, app.Settle{})
	return addressOf(p.model.Settled.Format())
}

// addressOf is the address of a fragment; ok is false where nobody else could
// open it.
func addressOf(fragment string) (address string, ok bool) {
	at := window.Get("location")
	base := at.Get("href").String()
	base, ok = base[:strings.IndexAny(base+"#", "?#")], true
	switch host := at.Get("hostname").String(); {
	case at.Get("protocol").String() == "file:", host == "localhost", host == "127.0.0.1", host == "[::1]":
		if public := byID("loader").Get("dataset").Get("public").String(); public != "" {
			base = public
		} else {
			ok = false
		}
	}
	return base + "#" + fragment, ok
}

// boardPage is the address of the board's page: a file of its own, or this one by
// another name.
func boardPage() string { return byID("board").Get("dataset").Get("page").String() }

const onlyHere = "this copy has no public address: the link opens on this device only"

// share offers the shot's link to the system.
func (p *page) share() {
	address, public := p.link()
	p.pushAddress()
	shareLink("Pivotbench", address, public)
}

// shareLink opens the system's share sheet, where there is one.
func shareLink(title, address string, public bool) {
	navigator := window.Get("navigator")
	if navigator.Get("share").IsUndefined() {
		copyLink(address, public, "copy the address bar")
		return
	}
	if !public {
		say(onlyHere)
		return
	}
	settle(navigator.Call("share", map[string]any{"title": title, "url": address}),
		func(js.Value) {}, func(err js.Value) {
			if err.Get("name").String() != "AbortError" { // the user thought better of it
				say("sharing failed: " + err.Get("message").String())
			}
		})
}

// copy puts the shot's link on the clipboard.
func (p *page) copy() {
	address, public := p.link()
	p.pushAddress()
	copyLink(address, public, "copy the address bar")
}

// copyLink puts a link on the clipboard; otherwise is what else one may do
// where a browser does not let a page.
func copyLink(address string, public bool, otherwise string) {
	done := "link copied"
	if !public {
		done += "; " + onlyHere
	}
	clipboard := window.Get("navigator").Get("clipboard")
	if clipboard.IsUndefined() {
		say("this browser keeps the clipboard from pages here: " + otherwise)
		return
	}
	settle(clipboard.Call("writeText", address),
		func(js.Value) { say(done) },
		func(js.Value) { say("the clipboard was refused: " + otherwise) })
}
