//go:build js && wasm

package section

import (
	"strconv"
	"syscall/js"
	"time"

	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/pointer"
	"pivotbench/wasm/view"
)

// pause is how long after the last change of a control the gesture ends: moving a slider
// by the arrow keys makes one history entry, not one for each press.
const pause = 400 * time.Millisecond

// Controls are the fields and sliders of the shot in all sections.
type Controls struct {
	Host
	all      []*control
	settling *time.Timer // ends a gesture
}

// A control holds the elements of one key.
type control struct {
	key       *scenario.Key
	field     js.Value // input or select
	slider    js.Value // null if there is none
	unit      js.Value // of a number
	unitShown string
	typing    bool   // the field holds text that is not committed
	wrong     bool   // the field holds text that was refused, for the user to correct
	held      string // the key's value at that time; once it has changed, the text is stale
	last      view.Control
	touched   bool // by the user since it was last written
}

// adopt finds the fields and sliders of all forms and pairs each slider with its field.
// The same key may have a row in more than one section. The page comes with them showing
// the default shot.
func (p *Controls) adopt() {
	came := scenario.Default()
	dom.Each(".control [data-set]", func(el js.Value) {
		if el.Get("type").String() == "range" {
			p.all[len(p.all)-1].slider = el
		} else {
			data := el.Get("dataset")
			key := scenario.Find(data.Get("set").String())
			p.all = append(p.all, &control{
				key: key, field: el, slider: js.Null(), last: view.ControlOf(key, &came),
				unit: el.Get("nextElementSibling"), unitShown: data.Get("unit").String(),
			})
		}
		el.Set("row", len(p.all)-1)
	})
}

// of returns the control that an event comes from, and the element.
func (p *Controls) of(event js.Value) (*control, js.Value) {
	el := event.Get("target")
	row := el.Get("row")
	if row.IsUndefined() {
		return nil, el
	}
	c := p.all[row.Int()]
	c.touched = true
	return c, el
}

// Listen handles the fields and sliders of all forms.
func (p *Controls) Listen(h Host) {
	p.Host = h
	p.adopt()
	dom.Listen(dom.Document, "submit", func(e js.Value) { e.Call("preventDefault") })
	dom.Listen(dom.Document, "input", func(e js.Value) {
		c, el := p.of(e)
		if c == nil {
			return
		}
		c.typing = el.Equal(c.field) && c.key.Choices == nil
		p.set(c, el, c.typing)
		if p.settleSoon(); el.Equal(c.slider) {
			p.settling.Stop() // a finger may rest on the slider; the change event comes when it is lifted
		}
	})
	dom.Listen(dom.Document, "change", func(e js.Value) {
		c, el := p.of(e)
		if c == nil {
			return
		}
		c.typing = false
		wrote := el.Get("value")
		p.set(c, el, false)
		m := p.Model()
		if c.wrong = m.Refused; c.wrong {
			c.held = c.key.Value(&m.Scene)
			el.Set("value", wrote)
		}
		p.Show(m)
		p.settleSoon()
	})
	pointer.Slides(func(phase app.Phase) { p.Do(app.Drag{Phase: phase}) }) // a drag by a finger; its values come as input and change events
	dom.Listen(dom.Document, "focusout", func(e js.Value) {
		if c, _ := p.of(e); c != nil { // not every browser sends a change event after Enter
			c.typing = false
			p.Show(p.Model())
		}
	})
	dom.Listen(dom.Document, "keydown", func(e js.Value) {
		if c, el := p.of(e); c != nil && e.Get("key").String() == "Enter" && el.Equal(c.field) {
			e.Call("preventDefault") // there is nothing to submit
			el.Call("dispatchEvent", js.Global().Get("Event").New("change", map[string]any{"bubbles": true}))
		}
	})
}

// set applies the value that an element of a control holds.
func (p *Controls) set(c *control, el js.Value, draft bool) {
	c.wrong = false
	p.Do(app.Set{Key: c.key.Name, Text: el.Get("value").String(), Bare: c.unitShown, Draft: draft})
}

// settleSoon ends the gesture after a pause without changes.
func (p *Controls) settleSoon() {
	if p.settling != nil {
		p.settling.Stop()
	}
	p.settling = time.AfterFunc(pause, func() { p.Do(app.Settle{}) })
}

// Show writes what has changed, but not under the user's cursor.
func (p *Controls) Show(m app.Model) {
	reading := &m.Play().Reading
	focus := dom.Document.Get("activeElement")
	for _, c := range p.all {
		now := view.ControlIn(c.key, &m.Scene, reading)
		if now == c.last && !c.touched && !c.wrong {
			continue
		}
		c.last, c.touched = now, false
		if c.key.IsNumber() && now.Unit != c.unitShown {
			c.relabel(&now)
		}
		if now.Slider {
			dom.Set(c.slider, "value", dom.Number(now.Value))
			dom.Set(c.slider, "ariaValueText", now.Said())
		}
		c.wrong = c.wrong && c.held == c.key.Value(&m.Scene)
		dom.Set(c.field, "ariaInvalid", strconv.FormatBool(c.wrong))
		if c.key.IsNumber() {
			dom.Set(c.field, "placeholder", now.Named)
		}
		if !c.wrong && !c.typing && !(focus.Equal(c.field) && c.means(&m.Scene)) {
			dom.Set(c.field, "value", now.Text)
		}
	}
}

// means reports whether the text in a field means the shot's own value. Rewriting it
// under the user's cursor would get in the way.
func (c *control) means(s *scenario.Scenario) bool {
	try := *s
	return c.key.Set(&try, c.field.Get("value").String(), c.unitShown) == nil && try == *s
}

// Draft reports whether an element is the field of a control, and whether it holds text
// that is not committed: being typed, or refused.
func (p *Controls) Draft(el js.Value) (draft, is bool) {
	row := el.Get("row")
	if row.IsUndefined() {
		return false, false
	}
	m, c := p.Model(), p.all[row.Int()]
	return (c.typing || c.wrong) && !c.means(&m.Scene), true
}

// Restored marks the text of a control's field as not committed.
func (p *Controls) Restored(el js.Value) {
	m, c := p.Model(), p.all[el.Get("row").Int()]
	c.wrong, c.held = true, c.key.Value(&m.Scene)
}

// relabel follows a change of units.
func (c *control) relabel(now *view.Control) {
	c.unitShown = now.Unit
	c.unit.Set("textContent", now.Unit)
	c.field.Get("dataset").Set("unit", now.Unit)
	if now.Slider {
		c.slider.Get("dataset").Set("unit", now.Unit)
		c.slider.Set("min", dom.Number(now.Lo))
		c.slider.Set("max", dom.Number(now.Hi))
		c.slider.Set("step", dom.Number(now.Step))
	}
}
