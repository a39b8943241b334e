//go:build js && wasm

package pointer

import (
	"syscall/js"

	"pivotbench/wasm/sheet"
)

// keys are what arrow keys at a handle do, and what its value is in words.
type keys struct {
	nudge func(id sheet.HandleID, x, y float64, slow bool)
	value func(sheet.HandleID) (number float64, text string)
}

// Keys has the keyboard take the handles too, where there is no slider for
// each: an arrow moves one a step, with Shift a small one.
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
		e.Call("stopPropagation") // a lesson's next step has the arrow else
		nudge(sheet.HandleID(id.String()), way.X, way.Y, e.Get("shiftKey").Bool())
	})
}

// name tells who can't see it what a handle is; where a slider does the same,
// that is told of instead.
func (l *Layer) name(el js.Value, h sheet.Handle) {
	if l.keys == nil {
		el.Call("setAttribute", "aria-hidden", "true")
		return
	}
	el.Set("tabIndex", 0)
	el.Call("setAttribute", "role", "slider")
	el.Call("setAttribute", "aria-label", h.Label)
}

// value tells where a handle is.
func (l *Layer) value(el js.Value, h sheet.Handle) {
	if l.keys == nil {
		return
	}
	number, text := l.keys.value(h.ID)
	el.Call("setAttribute", "aria-valuenow", number)
	el.Call("setAttribute", "aria-valuetext", text)
}
