//go:build js && wasm

package dom

import (
	"strings"
	"syscall/js"
)

// Set writes a property only if it differs, so that a live region is spoken once.
func Set(el js.Value, name, value string) {
	if el.Get(name).String() != value {
		el.Set(name, value)
	}
}

// Say writes the text of an element, by id, if it differs.
func Say(id, text string) { Set(ByID(id), "textContent", text) }

// Hide hides an element or shows it again.
func Hide(id string, hidden bool) { ByID(id).Set("hidden", hidden) }

// Put appends an element with a text to a parent.
func Put(tag, text string, parent js.Value) js.Value {
	el := Document.Call("createElement", tag)
	el.Set("textContent", text)
	parent.Call("append", el)
	return el
}

// PutButton appends a button for an action on the entry of a list.
func PutButton(text, label, action string, index int, parent js.Value) js.Value {
	button := Put("button", text, parent)
	button.Call("setAttribute", "type", "button")
	button.Call("setAttribute", "aria-label", label)
	button.Get("dataset").Set("do", action)
	button.Get("dataset").Set("index", index)
	return button
}

// PutBar appends a row for buttons.
func PutBar(parent js.Value) js.Value {
	bar := Put("div", "", parent)
	bar.Set("className", "card-bar")
	return bar
}

// List writes sentences as a list, which is hidden if there are none.
func List(id string, items []string) {
	el := ByID(id)
	el.Call("replaceChildren")
	for _, item := range items {
		Put("li", item, el)
	}
	el.Set("hidden", len(items) == 0)
}

// Unbroken keeps a number and its unit on one line.
func Unbroken(text string) string {
	words := strings.Split(text, " ")
	for i := range words[:len(words)-1] {
		gap := " "
		if last := words[i]; last != "" && last[len(last)-1] >= '0' && last[len(last)-1] <= '9' {
			gap = "\u00a0"
		}
		words[i] += gap
	}
	return strings.Join(words, "")
}

// InSight scrolls just far enough to show the whole element.
func InSight(el js.Value) {
	el.Call("scrollIntoView", map[string]any{"inline": "nearest", "block": "nearest"})
}

// Flash shows a passing message.
func Flash(words string) {
	el := ByID("said")
	el.Set("textContent", words)
	el.Get("classList").Call("remove", "shown")
	el.Get("offsetWidth") // restarts the animation
	el.Get("classList").Call("add", "shown")
}
