//go:build js && wasm

// Package dom accesses the document: it finds elements, writes to them, and listens to
// what the user does. It knows no model.
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

// Listen adds an event listener permanently.
func Listen(target js.Value, name string, f func(event js.Value)) {
	target.Call("addEventListener", name, js.FuncOf(func(_ js.Value, args []js.Value) any {
		f(args[0])
		return nil
	}))
}

// LessMotion reports whether the user prefers reduced motion.
func LessMotion() bool {
	return js.Global().Call("matchMedia", "(prefers-reduced-motion: reduce)").Get("matches").Bool()
}

// Hidden reports whether the page is hidden, as behind another tab.
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

// Doer returns the button with an action.
func Doer(action string) js.Value { return Find(`[data-do="` + action + `"]`) }

// Data returns a data attribute of an element, or "" if it has none.
func Data(el js.Value, name string) string {
	if v := el.Get("dataset").Get(name); v.Type() == js.TypeString {
		return v.String()
	}
	return ""
}

// Text returns the value of a field.
func Text(id string) string { return ByID(id).Get("value").String() }

// Index returns the list entry that an element belongs to, or −1.
func Index(el js.Value) int {
	i, err := strconv.Atoi(Data(el, "index"))
	if err != nil {
		return -1
	}
	return i
}

// Entry returns the list entry that an element belongs to, given the list as it was
// written. It returns the zero value if there is none.
func Entry[T any](list []T, el js.Value) (one T) {
	if i := Index(el); i >= 0 && i < len(list) {
		one = list[i]
	}
	return one
}

// Number formats a number for an attribute.
func Number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
