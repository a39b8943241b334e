//go:build js && wasm

package main

import (
	"strings"

	"pivotbench/core/lesson"
	"pivotbench/wasm/app"
)

// placeKey is where a visit keeps its place: the open section and lesson. The
// shot is in the address, and what was noted down is in the records.
const placeKey = "pivotbench-place"

// own marks a place in a lesson of one's own.
const own = "own"

// leavePlace notes the place for when the page is loaded again, as a phone does
// on its own when it is short of memory.
func (p *page) leavePlace() {
	parts := []string{p.section}
	if open := p.model.Lesson; open.Lesson.Stops() > 0 {
		parts = append(parts, map[bool]string{true: own, false: "other"}[p.model.Own], open.Format())
	}
	store(visit, placeKey, strings.Join(parts, " "))
}

// resume goes back to the place of a page that was loaded again. A link that
// was followed starts at the beginning.
func (p *page) resume() {
	came := window.Get("performance").Call("getEntriesByType", "navigation").Index(0)
	if came.IsUndefined() || came.Get("type").String() == "navigate" {
		return
	}
	parts := strings.Split(stored(visit, placeKey), " ")
	if p.sections[parts[0]] == nil || parts[0] == first && len(parts) == 1 {
		return
	}
	p.listenSections()
	if len(parts) == 3 {
		open, _ := lesson.ParseLink(parts[2])
		p.model = app.Update(p.model, app.Reopen{Link: open, Own: parts[1] == own})
	}
	p.open(parts[0])
}
