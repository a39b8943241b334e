//go:build js && wasm

package main

import (
	"strconv"
	"syscall/js"

	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/pointer"
)

// A talk is a lesson on the board: its words under the sheet, and what steps
// through it.
type talk struct {
	strip float64 // the height its words take, in CSS pixels
}

// newTalk lets keys, a presenter's clicker and the buttons step through the
// board's lesson, if it has one.
func newTalk(b *bench) *talk {
	t := &talk{}
	dom.Listen(document, "keydown", func(e js.Value) { t.key(b, e) })
	dom.Listen(byID("clicker"), "click", func(e js.Value) {
		button := e.Get("target").Call("closest", "[data-talk]")
		if !button.Truthy() {
			return
		}
		button.Call("blur") // the space bar is for the next step
		t.step(b, map[string]int{"back": -1, "on": 1}[button.Get("dataset").Get("talk").String()])
	})
	drag := byID("talk-drag")
	reply := func(done bool) {
		v, err := strconv.ParseFloat(drag.Get("value").String(), 64)
		if err == nil {
			b.glide = nil
			b.change(app.Reply{Value: v, Done: done})
			t.answer(b)
		}
	}
	dom.Listen(drag, "input", func(js.Value) { reply(false) })
	dom.Listen(drag, "change", func(js.Value) {
		reply(true)
		byID("talk-spoken").Set("textContent", byID("talk-attempt").Get("textContent")) // aloud once, not at every pixel
	})
	pointer.Slides(func(phase app.Phase) { b.change(app.Drag{Phase: phase}) })
	dom.Listen(window, "resize", func(js.Value) {
		t.measure()
		b.redraw()
	})
	t.render(b)
	return t
}

// key is what keyboards and clickers send. A slider keeps its own arrows, Home and
// End, and a button its space bar.
func (t *talk) key(b *bench, e js.Value) {
	if e.Get("ctrlKey").Bool() || e.Get("metaKey").Bool() || e.Get("altKey").Bool() || b.model.Lesson.Lesson.Stops() == 0 {
		return
	}
	at, key := b.model.Lesson.At, e.Get("key").String()
	sliding := e.Get("target").Equal(byID("talk-drag"))
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

// step goes so many stops on.
func (t *talk) step(b *bench, by int) {
	from := b.model.Lesson.At
	if to := max(0, min(from+by, b.model.Lesson.Lesson.Stops()-1)); to != from {
		b.glideTo(app.Halt{At: to})
		b.writeAddress()
		t.render(b)
	}
}

// render writes the words of the stop the lesson has come to.
func (t *talk) render(b *bench) {
	l := &b.model.Lesson.Lesson
	stops := l.Stops()
	byID("talk").Set("hidden", stops == 0)
	buttons := document.Call("querySelectorAll", "[data-talk]")
	for i := range buttons.Length() {
		buttons.Index(i).Set("hidden", stops == 0)
	}
	t.measure()
	if stops == 0 {
		return
	}
	at := b.model.Lesson.At
	byID("talk-title").Set("textContent", l.Title)
	byID("talk-place").Set("textContent", strconv.Itoa(at+1)+" of "+strconv.Itoa(stops))
	byID("talk-words").Set("textContent", phrase.Stop(l, at, b.model.LessonUnits()))
	asks := l.Asks(at)
	byID("talk-reply").Set("hidden", !asks)
	if !asks {
		return
	}
	k := scenario.Find(l.Question.Key)
	byID("talk-control").Set("textContent", k.Label)
	drag := byID("talk-drag")
	drag.Set("min", k.Min)
	drag.Set("max", k.Max)
	drag.Set("step", k.Grain(b.model.Scene.Units))
	t.answer(b)
}

// answer writes what the class has dragged so far comes to.
func (t *talk) answer(b *bench) {
	l := &b.model.Lesson
	if !l.Lesson.Asks(l.At) {
		return
	}
	q, s := &l.Lesson.Question, &b.model.Scene
	v, _ := scenario.Find(q.Key).Number(s)
	byID("talk-drag").Set("value", v)
	value := phrase.Value(q, s, v)
	byID("talk-value").Set("textContent", value)
	byID("talk-drag").Call("setAttribute", "aria-valuetext", value)
	said, _ := phrase.Attempt(q, s)
	byID("talk-attempt").Set("textContent", said)
}

// measure asks how high the words stand.
func (t *talk) measure() { t.strip = byID("talk").Get("offsetHeight").Float() }
