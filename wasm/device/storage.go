//go:build js && wasm

package device

import (
	"syscall/js"
	"time"
)

// A Storage is one of the browser's two. If it is full or refused, nothing is read and
// nothing is saved.
type Storage string

// The storage of the device, and that of the present tab.
const (
	Local Storage = "localStorage"
	Tab   Storage = "sessionStorage"
)

// open returns the storage object. If it is refused, even naming it throws, which Go can
// only recover from if it happens in a call.
func (s Storage) open() js.Value { return js.Global().Get("Reflect").Call("get", window, string(s)) }

// Read returns the text saved under a key, or "" if there is none.
func (s Storage) Read(key string) (text string) {
	Attempt(func() {
		if v := s.open().Call("getItem", key); v.Type() == js.TypeString {
			text = v.String()
		}
	})
	return text
}

// Write saves a text under a key and reports whether that worked.
func (s Storage) Write(key, text string) (kept bool) {
	return Attempt(func() { s.open().Call("setItem", key, text) })
}

// answersWithin is how soon a browser answers that does not ask its user first.
const answersWithin = 500 * time.Millisecond

// KeepForGood asks the browser to keep what is stored here when space runs short.
// Most browsers decide that by themselves, and those that have granted it before
// say so again. If the browser does not answer at once, it is asking its user, and
// asking is called.
func KeepForGood(asking func()) {
	Attempt(func() {
		answer := window.Get("navigator").Get("storage").Call("persist")
		timer := time.AfterFunc(answersWithin, asking)
		answered := func(js.Value) { timer.Stop() }
		Await(answer, answered, answered)
	})
}
