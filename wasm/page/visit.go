//go:build js && wasm

package main

import (
	"slices"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
)

// placeKey is the key of the visit in the tab's storage.
const placeKey = "pivotbench-place"

// leave saves the visit for a reload, which a phone may do by itself when memory is
// short, and puts the shot in the address.
func (p *page) leave() {
	p.take(app.Settle{})
	visit := p.model.Visit(p.units().Units(), p.drafts())
	for !device.Tab.Write(placeKey, visit.Format()) && len(visit.Fields) > 0 {
		visit = visit.WithoutLongest()
	}
	if !p.model.IsAt(device.Fragment()) {
		device.Replace(p.model.Settled.Format())
	}
}

// resume restores the visit after a reload. A link that was followed starts at the
// beginning.
func (p *page) resume() {
	if !device.CameBack() {
		return
	}
	visit := app.ParseVisit(device.Tab.Read(placeKey))
	if !slices.Contains(app.Sections, visit.Section) {
		return
	}
	if visit.Example {
		p.inside = visit
		p.Do(app.Return{Visit: visit})
		return
	}
	if visit.Section == app.Sections[0] && len(visit.Fields) == 0 && !visit.CueForm.On && visit.Lesson.Lesson.Stops() == 0 {
		p.Do(app.Return{Visit: visit}) // nothing else has to be restored first
		return
	}
	p.hearAll()
	p.Do(app.Return{Visit: visit})
	p.restore(visit)
	p.show(&p.model) // together with the restored drafts
}
