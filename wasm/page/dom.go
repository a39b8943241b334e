//go:build js && wasm

package main

import (
	"strconv"
	"syscall/js"
	"time"

	"pivotbench/wasm/pointer"
	"pivotbench/wasm/store"
)

// each calls f with every element a selector finds.
func each(selector string, f func(js.Value)) {
	list := document.Call("querySelectorAll", selector)
	for i := range list.Length() {
		f(list.Index(i))
	}
}

func byID(id string) js.Value { return document.Call("getElementById", id) }

// doer is the button that does something.
func doer(action string) js.Value {
	return document.Call("querySelector", `[data-do="`+action+`"]`)
}

// set writes a property only if it differs, so that a live region speaks once.
func set(el js.Value, name, value string) {
	if el.Get(name).String() != value {
		el.Set(name, value)
	}
}

// put makes an element with a text in a parent.
func put(tag, text string, parent js.Value) js.Value {
	el := document.Call("createElement", tag)
	el.Set("textContent", text)
	parent.Call("append", el)
	return el
}

// putButton makes a button that does something to the entry of a list.
func putButton(text, label, action string, index int, parent js.Value) js.Value {
	button := put("button", text, parent)
	button.Call("setAttribute", "type", "button")
	button.Call("setAttribute", "aria-label", label)
	button.Get("dataset").Set("do", action)
	button.Get("dataset").Set("index", index)
	return button
}

// index is the entry of a list that an element is about; -1: of none.
func index(el js.Value) int {
	i, err := strconv.Atoi(el.Get("dataset").Get("index").String())
	if err != nil {
		return -1
	}
	return i
}

// entry is the one of a list that an element is about, as the list was written;
// the zero one when there is none.
func entry[T any](list []T, el js.Value) (one T) {
	if i := index(el); i >= 0 && i < len(list) {
		one = list[i]
	}
	return one
}

// fill writes a list of names and what they come to.
func fill(list js.Value, n int, row func(int) (name, value string)) {
	list.Call("replaceChildren")
	for i := range n {
		name, value := row(i)
		div := put("div", "", list)
		put("dt", name, div)
		put("dd", value, div)
	}
}

// list writes sentences as a list, which is out of sight when there are none.
func list(el js.Value, items []string) {
	el.Call("replaceChildren")
	for _, item := range items {
		put("li", item, el)
	}
	el.Set("hidden", len(items) == 0)
}

// settle calls one of two functions once a promise is kept or broken.
func settle(promise js.Value, kept, broken func(js.Value)) {
	var yes, no js.Func
	release := func() { yes.Release(); no.Release() }
	yes = js.FuncOf(func(_ js.Value, args []js.Value) any { kept(args[0]); release(); return nil })
	no = js.FuncOf(func(_ js.Value, args []js.Value) any { broken(args[0]); release(); return nil })
	promise.Call("then", yes, no)
}

// attempt does what the browser may refuse, and reports whether it did not.
func attempt(do func()) (done bool) {
	defer func() { _ = recover() }()
	do()
	return true
}

// inSight scrolls no further than it takes to see an element whole.
func inSight(el js.Value) {
	el.Call("scrollIntoView", map[string]any{"inline": "nearest", "block": "nearest"})
}

// chartWidth is how wide a chart is to be drawn in a box. The style sheet makes
// it fill the box: a narrower one has larger words, for who wants them.
func chartWidth(box js.Value) float64 {
	text, _ := pointer.Wishes()
	return max(min(box.Get("clientWidth").Float(), 640)/max(text, 1), 280)
}

// say shows a passing message.
func say(words string) {
	el := byID("said")
	el.Set("textContent", words)
	el.Get("classList").Call("remove", "shown")
	el.Get("offsetWidth") // starts the animation anew
	el.Get("classList").Call("add", "shown")
}

// save hands a text to the browser as a file.
func save(name, kind, text string) {
	blob := js.Global().Get("Blob").New([]any{text}, map[string]any{"type": kind})
	address := js.Global().Get("URL").Call("createObjectURL", blob)
	a := document.Call("createElement", "a")
	a.Set("href", address)
	a.Set("download", name)
	a.Call("click")
	js.Global().Get("URL").Call("revokeObjectURL", address)
}

// now is the time of the page, in milliseconds.
func now() float64 { return window.Get("performance").Call("now").Float() }

// today is the date on the device, the way its user writes it.
func today() string { return js.Global().Get("Date").New().Call("toLocaleDateString").String() }

// day is the day of a moment of a record, the way its user writes dates. Without
// a time of day a browser takes a date for one at Greenwich.
func day(when string) string {
	text := store.Day(when)
	if date := js.Global().Get("Date").New(text + "T00:00"); !js.Global().Call("isNaN", date).Bool() {
		return date.Call("toLocaleDateString").String()
	}
	return text
}

// moment is the date and time on the device, for a log.
func moment() string { return time.Now().Format("2006-01-02T15:04:05.000Z07:00") }
