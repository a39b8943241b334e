//go:build js && wasm

package main

import (
	"strconv"
	"syscall/js"
	"time"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/pointer"
	"pivotbench/wasm/view"
)

// pause is how long after the last change of a control the gesture is over:
// a slider moved by the arrow keys makes one history entry, not one a press.
const pause = 400 * time.Millisecond

// A control is the elements of one key.
type control struct {
	key       *scenario.Key
	field     js.Value // input or select
	slider    js.Value // null: none
	unit      js.Value // of a number
	unitShown string
	typing    bool   // the field holds text that is not done yet
	wrong     bool   // the field holds text that was refused, for the user to mend
	held      string // the key's value then: once it is another, the text is stale
	last      view.Control
	touched   bool // by the user, since last was written
}

// adopt takes in the fields and sliders of all forms, a slider with the field
// before it. The same key may have a row in more than one section. They came
// showing the shot the model starts with.
func (p *page) adopt() {
	came := scenario.Default()
	each(".control [data-set]", func(el js.Value) {
		if el.Get("type").String() == "range" {
			p.controls[len(p.controls)-1].slider = el
		} else {
			data := el.Get("dataset")
			key := scenario.Find(data.Get("set").String())
			p.controls = append(p.controls, &control{
				key: key, field: el, slider: js.Null(), last: view.ControlOf(key, &came),
				unit: el.Get("nextElementSibling"), unitShown: data.Get("unit").String(),
			})
		}
		el.Set("row", len(p.controls)-1)
	})
}

// of is the control an event comes from, and its element.
func (p *page) of(event js.Value) (*control, js.Value) {
	el := event.Get("target")
	row := el.Get("row")
	if row.IsUndefined() {
		return nil, el
	}
	c := p.controls[row.Int()]
	c.touched = true
	return c, el
}

func (p *page) listenControls() {
	dom.Listen(document, "submit", func(e js.Value) { e.Call("preventDefault") })
	dom.Listen(document, "input", func(e js.Value) {
		c, el := p.of(e)
		if c == nil {
			return
		}
		c.typing = el.Equal(c.field) && c.key.Choices == nil
		p.setFrom(c, el, c.typing)
		if p.settleSoon(); el.Equal(c.slider) {
			p.settling.Stop() // a finger may rest on it: change comes when it is lifted
		}
	})
	dom.Listen(document, "change", func(e js.Value) {
		c, el := p.of(e)
		if c == nil {
			return
		}
		c.typing = false
		wrote := el.Get("value")
		p.setFrom(c, el, false)
		if c.wrong = p.model.Refused; c.wrong {
			c.held = c.key.Value(&p.model.Scene)
			el.Set("value", wrote)
		}
		p.render()
		p.settleSoon()
	})
	pointer.Slides(func(phase app.Phase) { // by a finger; what it sets comes as input and change
		p.do(app.Drag{Phase: phase})
		if phase == app.DragEnd {
			p.pushAddress()
		}
	})
	dom.Listen(document, "focusout", func(e js.Value) {
		if c, _ := p.of(e); c != nil { // not every browser has a change left to tell after Enter
			c.typing = false
			p.render()
		}
	})
	dom.Listen(document, "keydown", func(e js.Value) {
		if c, el := p.of(e); c != nil && e.Get("key").String() == "Enter" && el.Equal(c.field) {
			e.Call("preventDefault") // there is nothing to submit
			el.Call("dispatchEvent", js.Global().Get("Event").New("change", map[string]any{"bubbles": true}))
		}
	})
}

func (p *page) setFrom(c *control, el js.Value, draft bool) {
	c.wrong = false
	p.do(app.Set{Key: c.key.Name, Text: el.Get("value").String(), Bare: c.unitShown, Draft: draft})
}

// settleSoon ends the gesture when nothing has come for a while.
func (p *page) settleSoon() {
	if p.settling != nil {
		p.settling.Stop()
	}
	p.settling = time.AfterFunc(pause, p.settle)
}

func (p *page) settle() {
	p.do(app.Settle{})
	p.pushAddress()
}

func (p *page) renderControls(r *shot.Reading) {
	focus := document.Get("activeElement")
	for _, c := range p.controls {
		now := view.ControlOf(c.key, &p.model.Scene)
		p.otherSpeed(&now, r)
		if now == c.last && !c.touched && !c.wrong {
			continue
		}
		c.last, c.touched = now, false
		if c.key.IsNumber() && now.Unit != c.unitShown {
			c.relabel(&now)
		}
		if now.Slider {
			set(c.slider, "value", number(now.Value))
			set(c.slider, "ariaValueText", now.Said())
		}
		c.wrong = c.wrong && c.held == c.key.Value(&p.model.Scene)
		set(c.field, "ariaInvalid", strconv.FormatBool(c.wrong))
		if c.key.IsNumber() {
			set(c.field, "placeholder", now.Named)
		}
		if !c.wrong && !c.typing && !(focus.Equal(c.field) && p.typed(c)) {
			set(c.field, "value", now.Text)
		}
	}
}

// typed reports whether a field holds text that means what the model has:
// rewriting it under the user's cursor would get in the way.
func (p *page) typed(c *control) bool {
	try := p.model.Scene
	return c.key.Set(&try, c.field.Get("value").String(), c.unitShown) == nil && try == p.model.Scene
}

// otherSpeed shows, of ball speed and cue speed, the one that was not given as
// what it comes to.
func (p *page) otherSpeed(c *view.Control, r *shot.Reading) {
	a := r.BallSpeed
	switch {
	case c.Key.Name == "stroke" && !p.model.Scene.ByStroke:
		a = r.CueSpeed
	case c.Key.Name == "speed" && p.model.Scene.ByStroke:
	default:
		return
	}
	c.Named, c.Text = "", ""
	if a.Err() == nil {
		d := c.Key.Display(p.model.Scene.Units)
		u, _ := c.Key.Quantity.Find(d.Unit)
		c.Named, c.Value = d.Number(float64(a.Value)), float64(a.Value)/u.SI
	}
}

// relabel follows a change of units.
func (c *control) relabel(now *view.Control) {
	c.unitShown = now.Unit
	c.unit.Set("textContent", now.Unit)
	c.field.Get("dataset").Set("unit", now.Unit)
	if now.Slider {
		c.slider.Get("dataset").Set("unit", now.Unit)
		c.slider.Set("min", number(now.Lo))
		c.slider.Set("max", number(now.Hi))
		c.slider.Set("step", number(now.Step))
	}
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
