//go:build js && wasm

package main

import (
	"slices"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
)

// placeKey is where the browser keeps the visit, for as long as the tab lives.
const placeKey = "pivotbench-place"

// leave keeps the visit for when the page is loaded again, as a phone does on its
// own when it is short of memory, and has the address bring the shot back.
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

// resume takes up the visit of a page that was loaded again. A link that was
// followed starts at the beginning.
func (p *page) resume() {
	if !device.CameBack() {
		return
	}
	visit := app.ParseVisit(device.Tab.Read(placeKey))
	if !slices.Contains(app.Sections, visit.Section) {
		return
	}
	if visit.Section == app.Sections[0] && len(visit.Fields) == 0 && !visit.CueForm.On && visit.Lesson.Lesson.Stops() == 0 {
		p.Do(app.Return{Visit: visit}) // nothing else has to be there yet
		return
	}
	p.hearAll()
	p.Do(app.Return{Visit: visit})
	p.restore(visit)
	p.show(&p.model) // with what was typed there
}
