//go:build js && wasm

package device

import "syscall/js"

// A Screen is the hold on the screen that keeps it on.
type Screen struct {
	wanted bool
	held   js.Value // null: it is not held
	asked  bool
}

// Keep keeps the screen on, or lets it go dark again, where the browser can. A
// browser lets go by itself when the page is hidden; Lost says so.
func (s *Screen) Keep(on bool) {
	s.wanted = on
	lock := window.Get("navigator").Get("wakeLock")
	if lock.IsUndefined() || js.Global().Get("document").Get("visibilityState").String() != "visible" {
		return
	}
	switch {
	case on && !s.held.Truthy() && !s.asked:
		s.asked = true
		Await(lock.Call("request", "screen"), func(held js.Value) {
			s.held, s.asked = held, false
			s.Keep(s.wanted) // which may be another by now
		}, func(js.Value) { s.asked = false }) // a low battery says no: then the screen goes dark as ever
	case !on && s.held.Truthy():
		s.held.Call("release")
		s.held = js.Null()
	}
}

// Lost has a hold that the browser let go of taken anew.
func (s *Screen) Lost() {
	s.held = js.Null()
	s.Keep(s.wanted)
}
