//go:build js && wasm

package dom

import (
	"slices"
	"syscall/js"
	"time"

	"pivotbench/core/unit"
)

// A keypad is a row of keys below a number field that a finger has tapped. Such fields
// ask for the decimal keypad, whose digits are large. On some phones it has no minus,
// slash or space, and on none has it letters, so the row has those: "9 1/2", "-0.4" and
// "24 cm" can be typed as with a keyboard.
type keypad struct {
	row   js.Value
	field js.Value // the field that it types into; null if it is hidden
	touch bool     // the last press was by a finger or a pen
}

// others lists the units offered for a field, by the unit shown beside it.
var others = []struct {
	kind  unit.Kind
	names []string
}{
	{unit.LengthKind, []string{"in", "cm", "mm"}},
	{unit.SpeedKind, []string{"mph", "m/s", "km/h"}},
	{unit.MassKind, []string{"g", "oz"}},
}

// tap is how long the row stays once its field has lost the focus. If it went at once, a
// button below would move away from under the tap that took the focus.
const tap = 350 * time.Millisecond

// OfferKeys shows the row for number fields.
func OfferKeys() {
	k := &keypad{row: ByID("keypad"), field: js.Null()}
	Listen(Document, "pointerdown", func(e js.Value) { k.touch = e.Get("pointerType").String() != "mouse" })
	Listen(Document, "focusin", func(e js.Value) { k.attend(e.Get("target")) })
	Listen(Document, "focusout", func(e js.Value) {
		if to := e.Get("relatedTarget"); !to.Truthy() || !k.row.Call("contains", to).Bool() {
			k.field = js.Null()
			time.AfterFunc(tap, k.hide)
		}
	})
	// A press on a key must not move the focus, which would close the phone's keypad.
	Listen(k.row, "mousedown", func(e js.Value) { e.Call("preventDefault") })
	Listen(k.row, "click", func(e js.Value) {
		key := e.Get("target").Call("closest", "[data-key]")
		if key.Truthy() && k.field.Truthy() {
			k.press(key.Get("dataset").Get("key").String())
		}
	})
}

// hide takes the row away, unless a field has the focus again.
func (k *keypad) hide() {
	if k.field.IsNull() {
		k.row.Set("hidden", true)
	}
}

// attend shows the row for a field that a finger has focused.
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

// press inserts a text at the field's cursor. The browser's own command keeps undo
// working; if it is missing, the field's method is used.
func (k *keypad) press(text string) {
	k.field.Call("focus")
	if Document.Call("execCommand", "insertText", false, text).Bool() {
		return
	}
	k.field.Call("setRangeText", text, k.field.Get("selectionStart"), k.field.Get("selectionEnd"), "end")
	k.field.Call("dispatchEvent", js.Global().Get("Event").New("input", map[string]any{"bubbles": true}))
}
