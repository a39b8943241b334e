//go:build js && wasm

// Package dom is the document: finding elements, writing to them, and hearing of
// what its user does. It knows no model.
package dom

import (
	"strconv"
	"syscall/js"
)

// The browser's window, its document, and the document's root element.
var (
	Window   = js.Global().Get("window")
	Document = js.Global().Get("document")
	Root     = Document.Get("documentElement")
)

// Listen adds an event listener for good.
func Listen(target js.Value, name string, f func(event js.Value)) {
	target.Call("addEventListener", name, js.FuncOf(func(_ js.Value, args []js.Value) any {
		f(args[0])
		return nil
	}))
}

// LessMotion reports whether the user asks for less motion.
func LessMotion() bool {
	return js.Global().Call("matchMedia", "(prefers-reduced-motion: reduce)").Get("matches").Bool()
}

// Hidden reports whether the page is out of sight, such as behind another tab.
func Hidden() bool { return Document.Get("hidden").Bool() }

// ByID returns the element with an id, or null.
func ByID(id string) js.Value { return Document.Call("getElementById", id) }

// Find returns the first element that a selector matches, or null.
func Find(selector string) js.Value { return Document.Call("querySelector", selector) }

// Each calls f with every element that a selector matches.
func Each(selector string, f func(js.Value)) {
	list := Document.Call("querySelectorAll", selector)
	for i := range list.Length() {
		f(list.Index(i))
	}
}

// Doer returns the button that does an action.
func Doer(action string) js.Value { return Find(`[data-do="` + action + `"]`) }

// Data returns a data attribute of an element; empty: it has none.
func Data(el js.Value, name string) string {
	if v := el.Get("dataset").Get(name); v.Type() == js.TypeString {
		return v.String()
	}
	return ""
}

// Text returns what a field holds.
func Text(id string) string { return ByID(id).Get("value").String() }

// Index returns which entry of a list an element is about; −1: of none.
func Index(el js.Value) int {
	i, err := strconv.Atoi(Data(el, "index"))
	if err != nil {
		return -1
	}
	return i
}

// Entry returns the entry of a list that an element is about, as the list was
// written; the zero one when there is none.
func Entry[T any](list []T, el js.Value) (one T) {
	if i := Index(el); i >= 0 && i < len(list) {
		one = list[i]
	}
	return one
}

// Number writes a number the way attributes take it.
func Number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
