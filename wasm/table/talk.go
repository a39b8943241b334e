//go:build js && wasm

package main

import (
	"strconv"
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/pointer"
	"pivotbench/wasm/view"
)

// A talk is a lesson on the board: its text under the sheet, and the controls that step
// through it.
type talk struct {
	strip float64 // height of its text in CSS pixels
	shown view.Stop
}

// newTalk lets keys, a presenter's clicker and the buttons step through the board's
// lesson, if it has one.
func newTalk(b *bench) *talk {
	t := &talk{}
	dom.Listen(dom.Document, "keydown", func(e js.Value) { t.key(b, e) })
	dom.Listen(dom.ByID("clicker"), "click", func(e js.Value) {
		button := e.Get("target").Call("closest", "[data-talk]")
		if !button.Truthy() {
			return
		}
		button.Call("blur") // so that the space bar is for the next step
		t.step(b, map[string]int{"back": -1, "on": 1}[dom.Data(button, "talk")])
	})
	reply := func(done bool) func(js.Value) {
		return func(js.Value) {
			if v, err := strconv.ParseFloat(dom.Text("talk-drag"), 64); err == nil {
				b.do(app.Reply{Value: v, Done: done})
			}
			if done {
				dom.ByID("talk-spoken").Set("textContent", dom.ByID("talk-attempt").Get("textContent")) // spoken once, not at every pixel of the drag
			}
		}
	}
	dom.Listen(dom.ByID("talk-drag"), "input", reply(false))
	dom.Listen(dom.ByID("talk-drag"), "change", reply(true))
	pointer.Slides(func(phase app.Phase) { b.do(app.Drag{Phase: phase}) })
	dom.Listen(dom.Window, "resize", func(js.Value) {
		t.measure()
		b.redraw()
	})
	t.show(&b.model)
	return t
}

// key handles a key from a keyboard or clicker. A slider keeps its arrow keys, Home and
// End, and a button its space bar.
func (t *talk) key(b *bench, e js.Value) {
	if e.Get("ctrlKey").Bool() || e.Get("metaKey").Bool() || e.Get("altKey").Bool() || b.model.Lesson.Lesson.Stops() == 0 {
		return
	}
	at, key := b.model.Lesson.At, e.Get("key").String()
	sliding := e.Get("target").Equal(dom.ByID("talk-drag"))
	pressing := e.Get("target").Get("localName").Equal(js.ValueOf("button"))
	switch {
	case key == "PageDown", key == " " && !pressing, key == "ArrowRight" && !sliding:
		at++
	case key == "PageUp", key == "ArrowLeft" && !sliding:
		at--
	case key == "Home" && !sliding:
		at = 0
	case key == "End" && !sliding:
		at = b.model.Lesson.Lesson.Stops()
	default:
		return
	}
	e.Call("preventDefault")
	t.step(b, at-b.model.Lesson.At)
}

// step moves so many stops on.
func (t *talk) step(b *bench, by int) {
	from := b.model.Lesson.At
	if to := max(0, min(from+by, b.model.Lesson.Lesson.Stops()-1)); to != from {
		b.glideTo(app.Halt{At: to})
	}
}

// show writes the text of the present stop, and how the class's answer compares with the
// goal.
func (t *talk) show(m *app.Model) {
	now := view.StopOf(m)
	if now == t.shown {
		return
	}
	was := t.shown
	t.shown = now
	if now.Open != was.Open {
		dom.Hide("talk", !now.Open)
		dom.Each("[data-talk]", func(button js.Value) { button.Set("hidden", !now.Open) })
	}
	dom.Say("talk-title", now.Title)
	dom.Say("talk-place", now.Place)
	dom.Say("talk-words", now.Words)
	dom.Hide("talk-reply", !now.Asks)
	if now.Asks {
		dom.Say("talk-control", now.Answer.Label)
		drag := dom.ByID("talk-drag")
		drag.Set("min", now.Answer.Min)
		drag.Set("max", now.Answer.Max)
		drag.Set("step", now.Answer.Step)
		drag.Set("value", now.Answer.Value)
		drag.Call("setAttribute", "aria-valuetext", now.Answer.Shown)
		dom.Say("talk-value", now.Answer.Shown)
		dom.Say("talk-attempt", now.Answer.Attempt)
	}
	t.measure()
}

// measure reads the height of the text.
func (t *talk) measure() { t.strip = dom.ByID("talk").Get("offsetHeight").Float() }
