//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/sheet"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// measuring is the Measure section: tries at a gate, noted down and weighed.
type measuring struct {
	*page
	rail    view.RailFinding
	tries   log
	weigher weigher
	finding view.Finding
	help    []app.Setting // what would help, for the controls
}

func (m *measuring) listen() {
	m.actions["note"] = func(el js.Value) { m.note(el.Get("dataset").Get("outcome").String()) }
	m.actions["edit-try"] = func(el js.Value) { m.edit(entry(m.tries.tries, el)) }
	m.actions["leave-try"] = func(js.Value) { m.step(app.LeaveTry{}) }
	m.actions["delete-try"] = func(el js.Value) { m.do(app.DeleteTry{Try: entry(m.tries.tries, el)}) }
	m.actions["take-next"] = func(js.Value) { m.take(m.finding.Sets) }
	m.actions["take-help"] = func(js.Value) { m.take(m.help) }
	m.actions["gap-by-cards"] = func(js.Value) { m.gapByCards() }
	m.actions["use-pivot"] = func(js.Value) { m.usePivot() }
	m.actions["tries-csv"] = func(js.Value) { save("tries.csv", "text/csv;charset=utf-8", store.TriesCSV(m.model.Kept.Tries)) }
	m.actions["clear-tries"] = func(js.Value) {
		m.do(app.ClearTries{})
		say("started anew; Undo brings the tries back")
	}
	m.actions["save-measured"] = func(js.Value) { m.saveMeasured() }
	m.actions["save-rail"] = func(js.Value) { m.saveCue(m.rail.Cue) }
	dom.Listen(byID("tries"), "change", func(e js.Value) { m.changeOutcome(e.Get("target")) })
	m.listenRail()
}

// render writes the list of tries, and has them weighed, when they or the
// set-up have changed.
func (m *measuring) render(*shot.Result) {
	changed := m.renderTries()
	if changed || m.weigher.at != m.model.Scene.Format() {
		m.weigh()
	}
	m.renderRail()
	m.renderCorrection()
}

func (m *measuring) follow() {} // weighing goes on by itself

// renderFinding writes what the tries say.
func (m *measuring) renderFinding() {
	f := &m.finding
	set(byID("finding"), "textContent", f.Head)
	set(byID("next"), "textContent", f.Next)
	set(byID("limit"), "textContent", f.Limit)
	fill(byID("facts"), len(f.Facts), func(i int) (string, string) { return f.Facts[i].Name, f.Facts[i].Value })
	list(byID("flaws"), f.Flaws)
	doer("use-pivot").Set("disabled", f.Pivot == 0)
	doer("take-next").Set("hidden", len(f.Sets) == 0)
	box := byID("density")
	width := chartWidth(box)
	chart := sheet.Density(&m.model.Scene, m.weigher.post, width, 150)
	box.Set("innerHTML", sheet.SVG(&chart, "How likely each pivot length is. "+f.Head))
}

// take puts what was suggested on the bench.
func (m *measuring) take(sets []app.Setting) {
	m.do(app.Drag{Phase: app.DragStart})
	m.do(app.Drag{Phase: app.DragEnd, Sets: sets})
	m.pushAddress()
}

// usePivot puts the measured pivot length in the shot.
func (m *measuring) usePivot() {
	m.do(app.Set{Key: "pivot", Text: scenario.Find("pivot").StepText(float64(m.finding.Pivot), m.model.Scene.Units)})
	m.settle()
	m.open("shot")
}

// gapByCards sets the gap as one ball and some cards or coins between the
// blockers.
func (m *measuring) gapByCards() {
	many, err := unit.Parse(byID("cards").Get("value").String(), unit.Ratio, "")
	thick, errThick := unit.Parse(byID("thick").Get("value").String(), unit.LengthKind, "mm")
	if err != nil || errThick != nil || many < 0 || thick < 0 {
		say("give a number of cards, and how thick one is, as in 1.5 mm")
		return
	}
	set := view.CardGap(&m.model.Scene, many, unit.Length(thick))
	m.do(app.Set{Key: set.Key, Text: set.Text})
	m.settle()
}

// saveMeasured puts what the tries came to on the list of cues.
func (m *measuring) saveMeasured() {
	if m.weigher.post == nil || m.weigher.post.N() == 0 {
		say("note some tries first")
		return
	}
	scene := m.model.Scene
	if p := scenario.Find("name").Set(&scene, text("cue-name"), ""); p != nil {
		m.do(app.Tell{Notices: []string{p.Error()}})
		return
	}
	m.saveCue(store.Measured(&scene, m.weigher.post.Pivot(), "gate", moment()))
}
