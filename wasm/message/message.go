//go:build js && wasm

// Package message is how the page and its canvas talk: what they post to each
// other, and reading what other windows post, which may be anything.
package message

import "syscall/js"

// Type is the value's own Type, which panics at a BigInt: here that is as good
// as undefined.
func Type(v js.Value) (t js.Type) {
	defer func() {
		if recover() != nil {
			t = js.TypeUndefined
		}
	}()
	return v.Type()
}

// Target is whom a message to our own other window is for. Pages opened as
// files have no origin to name.
func Target() string {
	if origin := js.Global().Get("origin").String(); origin != "null" {
		return origin
	}
	return "*"
}

// From reports whether a message event comes from a window, and from a page of
// this very site in it.
func From(event, window js.Value) bool {
	return event.Get("source").Equal(window) && event.Get("origin").Equal(js.Global().Get("origin"))
}
