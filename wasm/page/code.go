//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/wasm/view"
)

// code shows the shot's link as a QR code.
func (p *page) code() {
	address, public := p.link()
	p.pushAddress()
	showCode("This shot", address, public)
}

// showCode shows a link as a QR code, for phones across the table that have no
// signal. The dialog takes the focus, and gives it back as it is closed.
func showCode(title, address string, public bool) {
	svg, err := view.Code(address)
	note := ""
	switch {
	case err != nil:
		note = "This link is " + err.Error() + "."
	case !public:
		note = "This copy has no public address: the link opens on this device only."
	}
	set(byID("code-title"), "textContent", title)
	byID("code-picture").Set("innerHTML", svg) // made of digits
	set(byID("code-note"), "textContent", note)
	set(byID("code-link"), "textContent", address)
	dialog := byID("code")
	if dialog.Get("showModal").IsUndefined() {
		say("this browser has no dialogs to show a code in")
		return
	}
	dialog.Call("showModal")
}

// listenCode has the dialog closed by its button; Escape is the browser's.
func (p *page) listenCode() {
	p.actions["code"] = func(js.Value) { p.code() }
	p.actions["code-close"] = func(js.Value) { byID("code").Call("close") }
}
