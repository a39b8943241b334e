//go:build js && wasm

package device

import (
	"errors"
	"syscall/js"
)

// Copy copies a text to the clipboard. done receives ErrMissing, ErrRefused or nil.
func Copy(text string, done func(error)) {
	clipboard := window.Get("navigator").Get("clipboard")
	if clipboard.IsUndefined() {
		done(ErrMissing)
		return
	}
	Await(clipboard.Call("writeText", text), func(js.Value) { done(nil) }, func(js.Value) { done(ErrRefused) })
}

// CanShare reports whether the system has a share sheet.
func CanShare() bool { return !window.Get("navigator").Get("share").IsUndefined() }

// Share opens the system's share sheet for a link. failed is told why it did not work,
// unless the user cancelled.
func Share(title, address string, failed func(error)) {
	Await(window.Get("navigator").Call("share", map[string]any{"title": title, "url": address}),
		func(js.Value) {}, func(err js.Value) {
			if err.Get("name").String() != "AbortError" {
				failed(errors.New(err.Get("message").String()))
			}
		})
}
