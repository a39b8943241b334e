//go:build js && wasm

package pointer

import (
	"syscall/js"

	"pivotbench/wasm/sheet"
)

// keys says what arrow keys do at a handle, and the handle's value in words.
type keys struct {
	nudge func(id sheet.HandleID, x, y float64, slow bool)
	value func(sheet.HandleID) (number float64, text string)
}

// Keys makes the handles usable by keyboard, where they have no sliders: an arrow key
// moves one by a step, with Shift by a small one.
func (l *Layer) Keys(nudge func(id sheet.HandleID, x, y float64, slow bool), value func(sheet.HandleID) (number float64, text string)) {
	l.keys = &keys{nudge, value}
	l.listen("keydown", func(e js.Value) {
		way, ok := map[string]sheet.Point{
			"ArrowLeft": {X: -1}, "ArrowRight": {X: 1}, "ArrowUp": {Y: -1}, "ArrowDown": {Y: 1},
		}[e.Get("key").String()]
		id := e.Get("target").Get("dataset").Get("handle")
		if !ok || id.IsUndefined() || e.Get("ctrlKey").Bool() || e.Get("metaKey").Bool() || e.Get("altKey").Bool() {
			return
		}
		e.Call("preventDefault")
		e.Call("stopPropagation") // otherwise a lesson's next step would take the arrow key
		nudge(sheet.HandleID(id.String()), way.X, way.Y, e.Get("shiftKey").Bool())
	})
}

// name gives a handle a name for screen readers. If a slider does the same, that is named
// instead.
func (l *Layer) name(el js.Value, h sheet.Handle) {
	if l.keys == nil {
		el.Call("setAttribute", "aria-hidden", "true")
		return
	}
	el.Set("tabIndex", 0)
	el.Call("setAttribute", "role", "slider")
	el.Call("setAttribute", "aria-label", h.Label)
}

// value sets the value of a handle for screen readers.
func (l *Layer) value(el js.Value, h sheet.Handle) {
	if l.keys == nil {
		return
	}
	number, text := l.keys.value(h.ID)
	el.Call("setAttribute", "aria-valuenow", number)
	el.Call("setAttribute", "aria-valuetext", text)
}
