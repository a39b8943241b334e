//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
)

// listenExample opens the example, and leaves it. What is typed on the user's own page and
// not done waits there.
func (p *page) listenExample() {
	dom.On("example", func(js.Value) {
		p.hearAll()
		p.Do(app.OpenExample{Units: p.units().Units(), Fields: p.drafts()})
	})
	dom.On("example-leave", func(js.Value) { p.Do(app.LeaveExample{}) })
}

// followExample fetches the example's records when it opens, and keeps what is typed in
// the example and on the user's own page apart.
func (p *page) followExample(before *app.Model) {
	switch {
	case p.model.InExample() == before.InExample():
		return
	case before.InExample():
		p.blank()
		p.restore(before.Home.Visit)
		p.show(&p.model)
		return
	}
	p.blank()
	visit := p.inside
	p.inside = app.Visit{}
	device.Companion("example-records", dom.Data(dom.ByID("loader"), "example"), func(text string, _ bool) {
		p.hearAll()
		p.Do(app.ShowExample{Text: text, Visit: visit})
		if visit.Example && p.model.InExample() {
			p.restore(visit)
			p.show(&p.model)
		}
	})
}

// blank empties the fields that hold drafts, except those of controls, which show the
// shot.
func (p *page) blank() {
	for _, f := range p.drafts() {
		el := dom.ByID(f.Name)
		if !el.Truthy() {
			continue
		}
		if _, is := p.controls.Draft(el); is {
			continue
		}
		if el.Get("localName").String() == "select" {
			el.Set("selectedIndex", 0)
			el.Call("dispatchEvent", js.Global().Get("Event").New("change", map[string]any{"bubbles": true}))
			continue
		}
		el.Set("value", el.Get("defaultValue"))
	}
}
