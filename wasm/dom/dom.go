//go:build js && wasm

// Package dom is what the page and its canvas both ask of the browser.
package dom

import "syscall/js"

// Listen adds an event listener for good.
func Listen(target js.Value, name string, f func(event js.Value)) {
	target.Call("addEventListener", name, js.FuncOf(func(_ js.Value, args []js.Value) any {
		f(args[0])
		return nil
	}))
}

// LessMotion reports whether the user asks for less of it.
func LessMotion() bool {
	return js.Global().Call("matchMedia", "(prefers-reduced-motion: reduce)").Get("matches").Bool()
}
