//go:build js && wasm

package pointer

import (
	"strconv"
	"syscall/js"
	"time"

	"pivotbench/wasm/app"
)

const (
	// thumb is the width of a slider's thumb in the style sheet, in CSS pixels.
	thumb = 26
	// afterTouch is how long after a finger is lifted a browser may still send mouse
	// events for it.
	afterTouch = 500 * time.Millisecond
)

// slides handles fingers on sliders. Engines differ in what a finger does to an input of
// type range: some jump to where it is set down, and some keep the value when the page
// takes over the gesture to scroll. So the effect of a finger or pen is undone, and the
// slider is moved here. Mouse and keyboard are left to the browser.
type slides struct {
	report func(app.Phase)
	held   map[int]*slide // by id of the pointer
}

// A slide is one finger on one slider.
type slide struct {
	el    js.Value
	track track
	x, y  float64 // where it was set down, in CSS pixels
	from  string  // value at that time
	value string  // value that the slider should show
	means intent
	over  bool
}

// Slides makes every slider of the page follow a finger only if it is dragged clearly
// sideways. report receives the start of such a drag and its end, after the slider's
// input and change events, or its cancellation, after an input event with the value from
// before.
func Slides(report func(app.Phase)) {
	s := &slides{report: report, held: map[int]*slide{}}
	for name, f := range map[string]func(js.Value){
		"pointerdown": s.down, "pointermove": s.move, "pointerup": s.up, "pointercancel": s.cancel,
		"input": s.putBack, "change": s.putBack,
	} {
		js.Global().Get("document").Call("addEventListener", name, js.FuncOf(func(_ js.Value, args []js.Value) any {
			f(args[0])
			return nil
		}), true)
	}
}

func (s *slides) down(e js.Value) {
	for id, old := range s.held {
		if old.over {
			delete(s.held, id)
		}
	}
	el := e.Get("target")
	if e.Get("pointerType").String() == "mouse" || el.Get("type").String() != "range" || el.Get("disabled").Bool() {
		return
	}
	e.Call("preventDefault") // otherwise mouse events would follow and make it jump
	value := el.Get("value").String()
	s.held[e.Get("pointerId").Int()] = &slide{
		el: el, x: e.Get("clientX").Float(), y: e.Get("clientY").Float(), from: value, value: value,
		track: track{bound(el, "min"), bound(el, "max"), el.Get("clientWidth").Float() - thumb},
	}
}

// bound returns an end of a slider's range.
func bound(el js.Value, name string) float64 {
	v, _ := strconv.ParseFloat(el.Get(name).String(), 64)
	return v
}

func (s *slides) move(e js.Value) {
	f := s.held[e.Get("pointerId").Int()]
	if f == nil || f.over || f.means == scrolling {
		return
	}
	dx := e.Get("clientX").Float() - f.x
	if f.means == unsure {
		if f.means = meant(dx, e.Get("clientY").Float()-f.y); f.means == sliding {
			s.report(app.DragStart)
		}
	}
	if f.means != sliding {
		return
	}
	from, _ := strconv.ParseFloat(f.from, 64)
	f.el.Set("value", f.track.moved(from, dx)) // the browser rounds it to a whole step
	if now := f.el.Get("value").String(); now != f.value {
		f.value = now
		f.tell("input")
	}
}

func (s *slides) up(e js.Value) {
	f := s.held[e.Get("pointerId").Int()]
	if f == nil || f.over {
		return
	}
	s.end(f)
	if f.means == sliding {
		f.tell("change")
		s.report(app.DragEnd)
	}
}

// cancel handles the browser taking over the gesture.
func (s *slides) cancel(e js.Value) {
	f := s.held[e.Get("pointerId").Int()]
	if f == nil || f.over {
		return
	}
	f.value = f.from
	s.end(f)
	if f.means == sliding {
		f.tell("input")
		s.report(app.DragCancel)
	}
}

// end releases a slider, except for what the browser still does because of the finger.
func (s *slides) end(f *slide) {
	f.over = true
	f.el.Set("value", f.value)
	time.AfterFunc(afterTouch, func() {
		for id, held := range s.held {
			if held == f {
				delete(s.held, id)
			}
		}
	})
}

// putBack undoes what the browser itself does because of a finger on a slider.
func (s *slides) putBack(e js.Value) {
	if !e.Get("isTrusted").Bool() {
		return
	}
	for _, f := range s.held {
		if f.el.Equal(e.Get("target")) {
			e.Call("stopImmediatePropagation")
			f.el.Set("value", f.value)
			return
		}
	}
}

func (f *slide) tell(name string) {
	f.el.Call("dispatchEvent", js.Global().Get("Event").New(name, map[string]any{"bubbles": true}))
}
