//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/phrase"
)

// A play is the board's own play-back. In a frame of the page, the page has the clock.
type play struct {
	*bench
	last  float64 // when the clock was last advanced, in milliseconds
	shown shown
}

// shown is the state of the buttons and the text beside the sheet.
type shown struct {
	running, on, slow, none bool
	moment                  string
}

// newPlay lets two buttons, P and, if there is no lesson to step through, the space bar
// play the shot. Escape shows it at rest again.
func newPlay(b *bench) *play {
	p := &play{bench: b}
	dom.ByID("run").Set("hidden", false)
	for id, do := range map[string]func(){
		"run":  p.toggle,
		"slow": func() { b.do(app.Slow{On: !b.model.Clock.Slow}) },
	} {
		button := dom.ByID(id)
		dom.Listen(button, "click", func(e js.Value) {
			if e.Get("detail").Int() > 0 { // by a pointer: the space bar is for the next step
				button.Call("blur")
			}
			do()
		})
	}
	dom.Listen(dom.Document, "keydown", func(e js.Value) {
		if e.Get("ctrlKey").Bool() || e.Get("metaKey").Bool() || e.Get("altKey").Bool() || e.Get("repeat").Bool() {
			return
		}
		switch e.Get("key").String() {
		case "Escape":
			b.do(app.Rest{})
			return
		case "p", "P":
		case " ":
			if b.model.Lesson.Lesson.Stops() > 0 || dom.Document.Get("activeElement").Call("closest", "button, input").Truthy() {
				return
			}
		default:
			return
		}
		e.Call("preventDefault")
		p.toggle()
	})
	return p
}

// toggle runs or pauses the shot. If the user prefers reduced motion, it advances to the
// next event instead.
func (p *play) toggle() {
	p.last = now()
	p.do(app.PlayOrHold{LessMotion: dom.LessMotion()})
}

// longest is the most that the clock is advanced at once, in milliseconds: after a while
// behind another tab the shot continues where it was.
const longest = 100

// move advances the clock to the frame that is about to be drawn.
func (p *play) move() {
	if p.model.Clock.Running {
		at := now()
		p.do(app.Tick{By: unit.Span(min(at-p.last, longest) / 1000)})
		p.last = at
	}
}

// render writes the buttons and the text.
func (p *play) render() {
	clock := p.model.Clock
	line, err := p.model.Timeline()
	next := shown{running: clock.Running, on: clock.On, slow: clock.Slow, none: err != nil}
	if clock.On && err == nil {
		f := line.At(clock.Time)
		next.moment = phrase.Moment(&p.model.Scene, &f)
	}
	if next == p.shown {
		return
	}
	p.shown = next
	run, slow := dom.ByID("run"), dom.ByID("slow")
	run.Set("disabled", next.none)
	run.Set("textContent", phrase.PlayButton(next.running))
	slow.Set("hidden", !next.on)
	slow.Call("setAttribute", "aria-pressed", next.slow)
	dom.ByID("moment").Set("textContent", next.moment)
}
