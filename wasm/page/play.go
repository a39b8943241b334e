//go:build js && wasm

package main

import (
	"strconv"
	"syscall/js"

	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/phrase"
)

// playing is the bar under the sheet that plays the shot. It has the only
// clock there is, and that stands still unless a shot runs.
type playing struct {
	*page
	bar, scrubber, told js.Value
	frame               js.Func // of an animation
	last                float64 // its time, in milliseconds; 0: none has come yet
	asked               bool    // for a frame
	span                string  // of the scrubber
	on                  bool    // a moment is shown
}

func (p *playing) listen() {
	p.bar, p.scrubber, p.told = byID("play"), byID("time"), byID("moment")
	p.frame = js.FuncOf(func(_ js.Value, args []js.Value) any {
		p.tick(args[0].Float())
		return nil
	})
	p.actions["play"] = func(js.Value) { p.play() }
	p.actions["slow"] = func(js.Value) { p.move(app.Slow{On: !p.model.Clock.Slow}) }
	p.actions["step-back"] = func(js.Value) { p.move(app.Step{Back: true}) }
	p.actions["step-on"] = func(js.Value) { p.move(app.Step{}) }
	dom.Listen(p.scrubber, "input", func(js.Value) {
		at, _ := strconv.ParseFloat(p.scrubber.Get("value").String(), 64)
		p.move(app.Seek{To: unit.Span(at)})
	})
	dom.Listen(document, "visibilitychange", func(js.Value) {
		if document.Get("hidden").Bool() && p.model.Clock.Running {
			p.move(app.Pause{})
		}
	})
}

// play runs the shot, or holds it. For a user who asks for less motion it goes
// on by one event instead.
func (p *playing) play() {
	switch {
	case p.model.Clock.Running:
		p.move(app.Pause{})
	case dom.LessMotion():
		p.move(app.Step{})
	default:
		p.move(app.Run{})
	}
}

// move takes an event of the clock, which changes nothing but the sheet and
// the bar.
func (p *playing) move(e app.Event) {
	p.model = app.Update(p.model, e)
	p.render()
	p.sendScene()
	if !p.canvas {
		p.renderDrawing(p.model.Play())
	}
	if p.model.Clock.Running && !p.asked {
		p.asked, p.last = true, 0
		window.Call("requestAnimationFrame", p.frame)
	}
}

func (p *playing) tick(now float64) {
	p.asked = false
	if !p.model.Clock.Running {
		return
	}
	var by float64
	if p.last > 0 {
		by = max(0, now-p.last) / 1000
	}
	p.move(app.Tick{By: unit.Span(by)})
	if p.asked {
		p.last = now
	}
}

// due reports whether the bar has to be written with the rest: not while a shot
// at rest is being changed, which every step of a drag does.
func (p *playing) due() bool {
	return p.on || p.model.Clock.On || p.model.Scene == p.model.Settled
}

// render writes the bar.
func (p *playing) render() {
	clock := p.model.Clock
	p.on = clock.On
	line, err := p.model.Timeline()
	p.bar.Set("disabled", err != nil)
	p.bar.Get("dataset").Set("on", clock.On)
	button := doer("play")
	set(button, "textContent", map[bool]string{false: "Play", true: "Pause"}[clock.Running])
	doer("slow").Call("setAttribute", "aria-pressed", clock.Slow)
	if err != nil {
		set(p.told, "textContent", "")
		return
	}
	if span := number(float64(line.From)) + " " + number(float64(line.To)); span != p.span {
		p.span = span
		p.scrubber.Set("min", number(float64(line.From)))
		p.scrubber.Set("max", number(float64(line.To)))
	}
	said := ""
	if clock.On {
		f := line.At(clock.Time)
		said = phrase.Moment(&p.model.Scene, &f)
	}
	set(p.scrubber, "value", number(float64(clock.Time)))
	p.scrubber.Call("setAttribute", "aria-valuetext", said)
	set(p.told, "textContent", said)
	p.told.Get("dataset").Set("time", number(float64(clock.Time)))
}
