//go:build js && wasm

// Package message is how the page and its canvas talk: telling each other, and
// reading what other windows post, which may be anything.
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

// longest is more than our own windows ever say at once.
const longest = 16 << 10

// Text is a value's text. It is not ok where there is none, or where there is so
// much that it must be junk: that is not even copied.
func Text(v js.Value) (text string, ok bool) {
	if Type(v) != js.TypeString || js.Global().Get("Object").Invoke(v).Length() > longest {
		return "", false
	}
	return v.String(), true
}

// Tell has our own other window hear a message before Tell returns: what a
// finger does is then in the frame that follows, where a posted message would
// come too late for it. A frame that failed to load is the browser's own, which
// hears nothing: of such a window even to name a property throws, where nothing
// brings the error back, so the event is dispatched by our own window's function.
func Tell(window js.Value, news map[string]any) {
	defer func() { _ = recover() }()
	event := js.Global().Get("MessageEvent").New("message", map[string]any{
		"data": news, "origin": js.Global().Get("origin"), "source": js.Global().Get("window"),
	})
	js.Global().Get("EventTarget").Get("prototype").Get("dispatchEvent").Call("call", window, event)
}

// From reports whether a message event comes from a window, and from a page of
// this very site in it.
func From(event, window js.Value) bool {
	return event.Get("source").Equal(window) && event.Get("origin").Equal(js.Global().Get("origin"))
}
