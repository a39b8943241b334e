//go:build js && wasm

package dom

import "syscall/js"

// actions maps the data-do of a button to what it does.
var actions = map[string]func(button js.Value){}

// On sets what every button with a data-do does when it is clicked.
func On(action string, f func(button js.Value)) { actions[action] = f }

// AnswerClicks starts handling clicks on buttons.
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
