//go:build js && wasm

package device

import "syscall/js"

// A Screen keeps the screen on.
type Screen struct {
	wanted bool
	held   js.Value // null if it is not held
	asked  bool
}

// Keep keeps the screen on, or lets it go dark again, if the browser can. A browser
// releases it by itself when the page is hidden; see Lost.
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
			s.Keep(s.wanted) // which may have changed meanwhile
		}, func(js.Value) { s.asked = false }) // refused, for example when the battery is low: the screen goes dark as usual
	case !on && s.held.Truthy():
		s.held.Call("release")
		s.held = js.Null()
	}
}

// Lost takes the lock again after the browser released it.
func (s *Screen) Lost() {
	s.held = js.Null()
	s.Keep(s.wanted)
}
