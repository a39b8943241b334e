//go:build js && wasm

// Package section is the page's sections, one a file, and the parts around them
// that every section has. Each tells its host what the user did, and shows what
// the model says; none changes the model, and none knows another.
package section

import (
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/pointer"
	"pivotbench/wasm/view"
)

// A Host is the page as its sections know it.
type Host interface {
	Model() app.Model // to be read
	Do(app.Event)
	Say(words string) // in passing
}

// A Part is a part of the page that is always there.
type Part interface {
	Listen(Host)    // once, at the start
	Show(app.Model) // when the model has changed
}

// A Section is a part with a tab of its own; its panel is [data-panel="<name>"].
type Section interface {
	Listen(Host)      // once, before it opens
	Show(app.Model)   // when the model has changed, while it is open
	Follow(app.Model) // soon after: what takes longer than a frame
}

// All returns the sections by their names, as app.Sections has them.
func All() map[string]Section {
	return map[string]Section{
		"shot":        &aiming{},
		"measure":     &measure{},
		"cues":        &cues{},
		"card":        &aimCard{},
		"clearance":   &clearance{},
		"lessons":     &lessons{},
		"instruments": &instruments{units: "in"}, // as the page is made
		"reference":   reference{},
	}
}

// reference is the section that is only read.
type reference struct{}

func (reference) Listen(Host)      {}
func (reference) Show(app.Model)   {}
func (reference) Follow(app.Model) {}

// fill writes a list of names and their values.
func fill(id string, facts []view.Fact) {
	list := dom.ByID(id)
	list.Call("replaceChildren")
	for _, f := range facts {
		div := dom.Put("div", "", list)
		dom.Put("dt", f.Name, div)
		dom.Put("dd", f.Value, div)
	}
}

// putTable writes a table; mark adds to the head of a row.
func putTable(id string, t view.Table, mark func(row int, head js.Value)) {
	table := dom.ByID(id)
	table.Call("replaceChildren")
	if len(t.Rows) == 0 {
		return
	}
	head := dom.Put("tr", "", dom.Put("thead", "", table))
	dom.Put("td", "", head)
	for _, column := range t.Columns {
		dom.Put("th", column, head).Call("setAttribute", "scope", "col")
	}
	body := dom.Put("tbody", "", table)
	for i, r := range t.Rows {
		row := dom.Put("tr", "", body)
		name := dom.Put("th", dom.Unbroken(r.Head), row)
		name.Call("setAttribute", "scope", "row")
		if mark != nil {
			mark(i, name)
		}
		for j, cell := range r.Cells {
			dom.Put("td", dom.Unbroken(cell), row).Get("dataset").Set("head", t.Columns[j])
		}
	}
}

// chartWidth is how wide a chart is to be drawn in a box. The style sheet makes
// it fill the box: a narrower one has larger words, for who wants them.
func chartWidth(box js.Value) float64 {
	text, _ := pointer.Wishes()
	return max(min(box.Get("clientWidth").Float(), 640)/max(text, 1), 280)
}
