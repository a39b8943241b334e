//go:build js && wasm

package dom

import (
	"strings"
	"syscall/js"
)

// takesText matches the elements that text is typed into. Every key pressed in one of
// them belongs to the browser, including its undo.
const takesText = `textarea, [contenteditable]:not([contenteditable="false"]), input:not([type="range"], [type="checkbox"], [type="radio"], [type="file"], [type="button"], [type="submit"])`

// ForPage reports whether the page should handle a key press. It should not if the key
// goes to a text field, if something else has handled it, or while a dialog covers the
// page.
func ForPage(e js.Value) bool {
	at := e.Get("target")
	return !e.Get("defaultPrevented").Bool() && !e.Get("isComposing").Bool() &&
		!Document.Call("querySelector", "dialog[open]").Truthy() &&
		(at.Get("closest").Type() != js.TypeFunction || at.Call("closest", takesText).IsNull())
}

// Modified reports whether a key or click came with a modifier that changes its meaning:
// Ctrl, Cmd or Alt.
func Modified(e js.Value) bool {
	return e.Get("ctrlKey").Bool() || e.Get("metaKey").Bool() || e.Get("altKey").Bool()
}

// UndoKeys handles Ctrl+Z, and Ctrl+Y or Ctrl+Shift+Z, with Cmd on a Mac. Caps Lock makes
// no difference. With Alt it is another key.
func UndoKeys(undo, redo func()) {
	Listen(Document, "keydown", func(e js.Value) {
		if !(e.Get("ctrlKey").Bool() || e.Get("metaKey").Bool()) || e.Get("altKey").Bool() || !ForPage(e) {
			return
		}
		key, shift := strings.ToLower(e.Get("key").String()), e.Get("shiftKey").Bool()
		switch {
		case key == "z" && !shift:
			e.Call("preventDefault")
			undo()
		case key == "z" || key == "y" && !shift:
			e.Call("preventDefault")
			redo()
		}
	})
}
