//go:build js && wasm

package device

import "syscall/js"

// Companion reads a text that comes with the page: from the template with an id if the
// page holds it, otherwise from an address. got receives the text; ok is false if it did
// not arrive.
func Companion(id, address string, got func(text string, ok bool)) {
	if held := js.Global().Get("document").Call("getElementById", id); held.Truthy() {
		got(held.Get("content").Get("textContent").String(), true)
		return
	}
	failed := func(js.Value) { got("", false) }
	Await(window.Call("fetch", address), func(response js.Value) {
		if !response.Get("ok").Bool() {
			got("", false)
			return
		}
		Await(response.Call("text"), func(text js.Value) { got(text.String(), true) }, failed)
	}, failed)
}
