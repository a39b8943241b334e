//go:build js && wasm

package dom

import (
	"slices"
	"syscall/js"

	"pivotbench/core/unit"
)

// A keypad is a row of keys below a number field that a finger has tapped. Such
// fields ask for the decimal keypad, whose digits are large. Some phones' have no
// minus, no slash and no space, and none has letters, so the row has those: "9 1/2",
// "-0.4" and "24 cm" are typed as they are with a keyboard.
type keypad struct {
	row   js.Value
	field js.Value // that it types into; null: it is out of sight
	touch bool     // the last press was of a finger or a pen
}

// others are the units offered for a field, by the unit that stands beside it.
var others = []struct {
	kind  unit.Kind
	names []string
}{
	{unit.LengthKind, []string{"in", "cm", "mm"}},
	{unit.SpeedKind, []string{"mph", "m/s", "km/h"}},
	{unit.MassKind, []string{"g", "oz"}},
}

// OfferKeys has the row come up for number fields.
func OfferKeys() {
	k := &keypad{row: ByID("keypad"), field: js.Null()}
	Listen(Document, "pointerdown", func(e js.Value) { k.touch = e.Get("pointerType").String() != "mouse" })
	Listen(Document, "focusin", func(e js.Value) { k.attend(e.Get("target")) })
	Listen(Document, "focusout", func(e js.Value) {
		if to := e.Get("relatedTarget"); !to.Truthy() || !k.row.Call("contains", to).Bool() {
			k.field = js.Null()
			k.row.Set("hidden", true)
		}
	})
	// A press on a key leaves the focus, and with it the phone's keypad, where it is.
	Listen(k.row, "mousedown", func(e js.Value) { e.Call("preventDefault") })
	Listen(k.row, "click", func(e js.Value) {
		key := e.Get("target").Call("closest", "[data-key]")
		if key.Truthy() && k.field.Truthy() {
			k.press(key.Get("dataset").Get("key").String())
		}
	})
}

// attend shows the row for a field that a finger has given the focus.
func (k *keypad) attend(el js.Value) {
	if !k.touch || !el.Call("matches", `input[inputmode="decimal"]`).Bool() {
		return
	}
	k.field = el
	beside := el.Get("dataset").Get("unit").String()
	if next := el.Get("nextElementSibling"); next.Truthy() && next.Call("matches", ".unit").Bool() {
		beside = next.Get("textContent").String()
	}
	list := k.row.Call("querySelector", "span")
	list.Call("replaceChildren")
	for _, o := range others {
		if _, ok := o.kind.Find(beside); !ok {
			continue
		}
		for _, name := range slices.DeleteFunc(slices.Clone(o.names), func(n string) bool { return n == beside }) {
			button := Put("button", name, list)
			button.Set("type", "button")
			button.Get("dataset").Set("key", " "+name)
		}
	}
	el.Call("closest", ".control, .lines, .card-bar").Call("after", k.row)
	k.row.Set("hidden", false)
}

// press types a text where the field's cursor is. The browser's own way keeps its
// undo; where there is none the field's is used.
func (k *keypad) press(text string) {
	k.field.Call("focus")
	if Document.Call("execCommand", "insertText", false, text).Bool() {
		return
	}
	k.field.Call("setRangeText", text, k.field.Get("selectionStart"), k.field.Get("selectionEnd"), "end")
	k.field.Call("dispatchEvent", js.Global().Get("Event").New("input", map[string]any{"bubbles": true}))
}
