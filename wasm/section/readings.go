//go:build js && wasm

package section

import (
	"syscall/js"

	"pivotbench/core/shot"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/view"
)

// Readings are the verdict and every reading of the shot.
type Readings struct {
	outputs []output
	verdict js.Value
}

// An output is an element that shows a reading.
type output struct {
	el, why js.Value
	spec    *shot.Spec
	shown   view.Readout
}

// Listen finds the elements.
func (r *Readings) Listen(Host) {
	r.verdict = dom.Find(`[data-reading="verdict"]`)
	for i := range shot.Specs {
		spec := &shot.Specs[i]
		el := dom.Find(`[data-reading="` + spec.Name + `"]`)
		r.outputs = append(r.outputs, output{el: el, why: el.Get("nextElementSibling"), spec: spec})
	}
}

// Show writes what has changed.
func (r *Readings) Show(m app.Model) {
	res := m.Play()
	for i := range r.outputs {
		o := &r.outputs[i]
		now := view.ReadoutOf(o.spec, &res.Reading, m.Scene.Units)
		if now == o.shown {
			continue
		}
		o.shown = now
		o.el.Get("dataset").Set("value", now.Exact)
		o.el.Get("dataset").Set("why", now.Why)
		o.el.Set("textContent", now.Text)
		if o.why.Truthy() {
			o.why.Set("textContent", now.Why)
		}
	}
	v := view.VerdictOf(&m, res)
	dom.Set(r.verdict, "textContent", v.Head)
	dom.Say("detail", v.Detail)
	r.verdict.Get("dataset").Set("value", v.Value)
	r.verdict.Get("dataset").Set("why", v.Why)
}

// Notices are messages for the user to read.
type Notices struct{}

// Listen has nothing to do: Bar dismisses the notices.
func (Notices) Listen(Host) {}

// Show writes the notices.
func (Notices) Show(m app.Model) {
	box := dom.ByID("notices")
	list := box.Call("querySelector", "ul")
	if list.Get("childElementCount").Int() == 0 && len(m.Notices) == 0 {
		return
	}
	list.Call("replaceChildren")
	for _, n := range m.Notices {
		dom.Put("li", n, list)
	}
	box.Set("hidden", len(m.Notices) == 0)
}
