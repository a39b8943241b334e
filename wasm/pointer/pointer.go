//go:build js && wasm

// Package pointer lets a finger, a pen or a mouse drag the handles of a sheet. It puts a
// transparent element over each and handles its Pointer Events. Only a press on a handle
// stops the page from scrolling; anywhere else a swipe scrolls as usual.
package pointer

import (
	"math"
	"strconv"
	"syscall/js"
	"time"

	"pivotbench/wasm/app"
	"pivotbench/wasm/sheet"
)

const (
	// still is how far a resting finger may move, in pixels.
	still = 5
	// hold is how long it has to rest before fine adjustment begins.
	hold = 500 * time.Millisecond
)

// A Report is one step of a drag. DX and DY count from where it began, or from where fine
// adjustment began, which is reported as another start.
type Report struct {
	ID     sheet.HandleID
	Phase  app.Phase
	DX, DY float64
	Slow   bool
}

// A Layer holds the elements. It follows one pointer at a time.
type Layer struct {
	parent  js.Value
	report  func(Report)
	made    map[sheet.HandleID]js.Value
	shown   []sheet.Handle
	pointer int // id of the pointer that drags; -1 for none
	id      sheet.HandleID
	from    sheet.Point
	at      sheet.Point
	rested  sheet.Point // where the wait for fine adjustment began
	slow    bool
	timer   *time.Timer
	keys    *keys // nil if sliders take the keys instead
}

// New returns a layer on an element, which must be positioned.
func New(parent js.Value, report func(Report)) *Layer {
	l := &Layer{parent: parent, report: report, made: map[sheet.HandleID]js.Value{}, pointer: -1}
	l.listen("pointerdown", l.down)
	l.listen("pointermove", l.move)
	l.listen("pointerup", func(e js.Value) { l.end(e, app.DragEnd) })
	l.listen("pointercancel", func(e js.Value) { l.end(e, app.DragCancel) })
	l.listen("lostpointercapture", l.lost)
	return l
}

func (l *Layer) listen(name string, f func(event js.Value)) {
	l.parent.Call("addEventListener", name, js.FuncOf(func(_ js.Value, args []js.Value) any {
		f(args[0])
		return nil
	}))
}

// Show moves the elements to the handles, and removes those without a handle.
func (l *Layer) Show(handles []sheet.Handle) {
	l.shown = handles
	here := map[sheet.HandleID]bool{}
	for _, h := range handles {
		here[h.ID] = true
		el, ok := l.made[h.ID]
		if !ok {
			el = js.Global().Get("document").Call("createElement", "div")
			el.Set("className", "handle")
			el.Get("dataset").Set("handle", string(h.ID))
			el.Get("dataset").Set("way", [...]string{"upright", "sideways", "anywhere"}[h.Way])
			l.name(el, h)
			l.parent.Call("appendChild", el)
			l.made[h.ID] = el
		}
		el.Get("style").Set("transform", "translate("+px(h.At.X)+","+px(h.At.Y)+")")
		l.value(el, h)
	}
	for id, el := range l.made {
		if !here[id] {
			el.Call("remove")
			delete(l.made, id)
		}
	}
}

func px(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) + "px" }

func (l *Layer) down(e js.Value) {
	hit := e.Get("target").Get("dataset").Get("handle")
	if l.pointer >= 0 && !l.parent.Call("hasPointerCapture", l.pointer).Bool() {
		l.stop(app.DragCancel) // its pointer disappeared without an event
	}
	if l.pointer >= 0 || hit.IsUndefined() || e.Get("button").Int() != 0 {
		return
	}
	e.Call("preventDefault")
	if !l.capture(e.Get("pointerId")) {
		return
	}
	l.at = place(e, l.parent)
	l.pointer, l.from, l.slow = e.Get("pointerId").Int(), l.at, e.Get("shiftKey").Bool()
	l.id = l.nearest(l.at, sheet.HandleID(hit.String()))
	l.send(app.DragStart)
	l.rest()
}

// capture lets the layer itself follow a pointer, since the element that was pressed may
// be covered by another. It fails if the pointer is already gone.
func (l *Layer) capture(pointer js.Value) (captured bool) {
	defer func() { _ = recover() }()
	l.parent.Call("setPointerCapture", pointer)
	return true
}

// nearest returns the handle closest to a point, since fingers are wider than the space
// between some of them.
func (l *Layer) nearest(at sheet.Point, hit sheet.HandleID) sheet.HandleID {
	best := math.Inf(1)
	for _, h := range l.shown {
		if d := math.Hypot(h.At.X-at.X, h.At.Y-at.Y); d < best {
			best, hit = d, h.ID
		}
	}
	return hit
}

func (l *Layer) move(e js.Value) {
	if e.Get("pointerId").Int() != l.pointer {
		return
	}
	l.at = place(e, l.parent)
	if math.Hypot(l.at.X-l.rested.X, l.at.Y-l.rested.Y) > still {
		l.rest()
	}
	l.send(app.DragMove)
}

// rest restarts the wait for fine adjustment.
func (l *Layer) rest() {
	l.rested = l.at
	if l.timer != nil {
		l.timer.Stop()
	}
	l.timer = time.AfterFunc(hold, func() {
		if l.pointer < 0 || l.slow {
			return
		}
		l.from, l.slow = l.at, true
		l.send(app.DragStart)
	})
}

// lost captures a pointer again that was lost during a drag, or ends the drag if the
// pointer has disappeared.
func (l *Layer) lost(e js.Value) {
	if id := e.Get("pointerId"); id.Int() == l.pointer && !l.capture(id) {
		l.end(e, app.DragCancel)
	}
}

func (l *Layer) end(e js.Value, phase app.Phase) {
	if e.Get("pointerId").Int() != l.pointer {
		return
	}
	if phase == app.DragEnd {
		l.at = place(e, l.parent)
	}
	l.stop(phase)
}

func (l *Layer) stop(phase app.Phase) {
	l.timer.Stop()
	l.send(phase)
	l.pointer = -1
}

func (l *Layer) send(phase app.Phase) {
	l.report(Report{l.id, phase, l.at.X - l.from.X, l.at.Y - l.from.Y, l.slow})
}

// place returns the position of an event in the layer's pixels.
func place(e, parent js.Value) sheet.Point {
	r := parent.Call("getBoundingClientRect")
	return sheet.Point{X: e.Get("clientX").Float() - r.Get("left").Float(), Y: e.Get("clientY").Float() - r.Get("top").Float()}
}
