//go:build js && wasm

package section

import (
	"strconv"
	"syscall/js"

	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/view"
)

// Play is the bar under the sheet that plays the shot. It has the page's only clock,
// which runs only while a shot does.
type Play struct {
	Host
	frame js.Func // of an animation
	last  float64 // its time in milliseconds; 0 before the first
	asked bool    // a frame has been requested
	shown view.PlayBar
}

// Listen handles its buttons.
func (p *Play) Listen(h Host) {
	p.Host = h
	p.frame = js.FuncOf(func(_ js.Value, args []js.Value) any {
		p.tick(args[0].Float())
		return nil
	})
	dom.On("play", func(js.Value) { h.Do(app.PlayOrHold{LessMotion: dom.LessMotion()}) })
	dom.On("slow", func(js.Value) { h.Do(app.Slow{On: !h.Model().Clock.Slow}) })
	dom.On("step-back", func(js.Value) { h.Do(app.Step{Back: true}) })
	dom.On("step-on", func(js.Value) { h.Do(app.Step{}) })
	dom.Listen(dom.ByID("time"), "input", func(js.Value) {
		at, _ := strconv.ParseFloat(dom.Text("time"), 64)
		h.Do(app.Seek{To: unit.Span(at)})
	})
	dom.Listen(dom.Document, "visibilitychange", func(js.Value) {
		if dom.Hidden() && h.Model().Clock.Running {
			h.Do(app.Pause{})
		}
	})
}

// tick advances the clock to a frame.
func (p *Play) tick(now float64) {
	p.asked = false
	by := 0.0
	if p.last > 0 {
		by = max(0, now-p.last) / 1000
	}
	p.last = now
	p.Do(app.Tick{By: unit.Span(by)})
	if !p.asked {
		p.last = 0
	}
}

// Show writes the bar and requests the next frame while the shot runs. It writes nothing
// while a shot at rest is being changed, which happens at every step of a drag.
func (p *Play) Show(m app.Model) {
	if m.Clock.Running && !p.asked {
		p.asked = true
		dom.Window.Call("requestAnimationFrame", p.frame)
	}
	if !p.shown.On && !m.Clock.On && m.InGesture() {
		return
	}
	now := view.PlayOf(&m)
	if now == p.shown {
		return
	}
	was := p.shown
	p.shown = now
	bar, scrubber, told := dom.ByID("play"), dom.ByID("time"), dom.ByID("moment")
	bar.Set("disabled", !now.Can)
	bar.Get("dataset").Set("on", now.On)
	dom.Set(dom.Doer("play"), "textContent", now.Button)
	dom.Doer("slow").Call("setAttribute", "aria-pressed", now.Slow)
	dom.Set(told, "textContent", now.Moment)
	if !now.Can {
		return
	}
	if now.From != was.From || now.To != was.To {
		scrubber.Set("min", now.From)
		scrubber.Set("max", now.To)
	}
	dom.Set(scrubber, "value", now.Time)
	scrubber.Call("setAttribute", "aria-valuetext", now.Moment)
	told.Get("dataset").Set("time", now.Time)
}
