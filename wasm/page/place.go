//go:build js && wasm

package main

import "pivotbench/wasm/app"

// placeKey is where the browser keeps the visit, for as long as the tab lives.
const placeKey = "pivotbench-place"

// leavePlace keeps the visit for when the page is loaded again, as a phone does on
// its own when it is short of memory.
func (p *page) leavePlace() {
	visit := p.model.Visit(p.section, p.gauges.units, p.drafts())
	tab.write(placeKey, visit.Format())
}

// resume takes up the visit of a page that was loaded again. A link that was
// followed starts at the beginning.
func (p *page) resume() {
	came := window.Get("performance").Call("getEntriesByType", "navigation").Index(0)
	if came.IsUndefined() || came.Get("type").String() == "navigate" {
		return
	}
	visit := app.ParseVisit(tab.read(placeKey))
	if p.sections[visit.Section] == nil {
		return
	}
	p.model = app.Update(p.model, app.Return{Visit: visit})
	if visit.Section == first && len(visit.Fields) == 0 && !visit.CueForm.On && visit.Lesson.Lesson.Stops() == 0 {
		p.render() // nothing else has to be there yet
		return
	}
	p.listenSections()
	p.restore(visit)
	p.open(visit.Section)
}
