//go:build js && wasm

package dom

import "syscall/js"

// actions are what buttons do, by their data-do.
var actions = map[string]func(button js.Value){}

// On has every button whose data-do is an action answered.
func On(action string, f func(button js.Value)) { actions[action] = f }

// AnswerClicks answers clicks on buttons from here on.
func AnswerClicks() {
	Listen(Document, "click", func(e js.Value) {
		button := e.Get("target").Call("closest", "button")
		if !button.Truthy() {
			return
		}
		if act := actions[Data(button, "do")]; act != nil {
			act(button)
			HoldFocus()
		}
	})
}
