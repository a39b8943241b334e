//go:build js && wasm

// Package pointer lets a finger, a pen or a mouse take a sheet's handles: a
// transparent element over each, from Pointer Events. Only a press on one
// holds the page still; anywhere else a swipe scrolls as it would.
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
	// still is how far a resting finger trembles, in pixels.
	still = 5
	// hold is how long it rests before fine work begins.
	hold = 500 * time.Millisecond
)

// A Report is one step of a drag. DX and DY count from where it began, or
// from where fine work began, which is reported as another start.
type Report struct {
	ID     sheet.HandleID
	Phase  app.Phase
	DX, DY float64
	Slow   bool
}

// A Layer holds the elements. It keeps to one pointer at a time.
type Layer struct {
	parent  js.Value
	report  func(Report)
	made    map[sheet.HandleID]js.Value
	shown   []sheet.Handle
	pointer int // the one that drags; -1: none
	id      sheet.HandleID
	from    sheet.Point
	at      sheet.Point
	rested  sheet.Point // where the wait for fine work began
	slow    bool
	timer   *time.Timer
	keys    *keys // nil: handles are for pointers, and their sliders for keys
}

// New puts a layer on an element, which must be positioned.
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

// Show moves the elements to where the handles are; those without one go.
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
		l.stop(app.DragCancel) // its pointer went without a word
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

// capture has the layer itself follow a pointer: the element pressed may be
// hidden by another's. It fails where the pointer is gone again already.
func (l *Layer) capture(pointer js.Value) (captured bool) {
	defer func() { _ = recover() }()
	l.parent.Call("setPointerCapture", pointer)
	return true
}

// nearest is the handle closest to a point: fingers are wider than the space
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

// rest starts the wait for fine work anew.
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

// lost takes a pointer back that got away in mid-drag, or ends the drag where it
// is gone without having said so.
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

// place is where an event is, in the layer's pixels.
func place(e, parent js.Value) sheet.Point {
	r := parent.Call("getBoundingClientRect")
	return sheet.Point{X: e.Get("clientX").Float() - r.Get("left").Float(), Y: e.Get("clientY").Float() - r.Get("top").Float()}
}
