//go:build js && wasm

// Package section has the page's sections, one in each file, and the parts around them
// that are always there. Each tells its host what the user did and shows what the model
// says. None changes the model, and none knows another.
package section

import (
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/pointer"
	"pivotbench/wasm/view"
)

// A Host is what a section knows of the page.
type Host interface {
	Model() app.Model // read only
	Do(app.Event)
	Say(words string) // shows a passing message
}

// A Part is a part of the page that is always there.
type Part interface {
	Listen(Host)    // called once, at the start
	Show(app.Model) // called when the model has changed
}

// A Section is a part with its own tab. Its panel is [data-panel="<name>"].
type Section interface {
	Listen(Host)      // called once, before it first opens
	Show(app.Model)   // called when the model has changed, while it is open
	Follow(app.Model) // called soon after that, for what takes longer than a frame
}

// All returns the sections by name. The names are those of app.Sections.
func All() map[string]Section {
	return map[string]Section{
		"shot":        &aiming{},
		"measure":     &measure{},
		"cues":        &cues{},
		"card":        &aimCard{},
		"players":     &players{},
		"clearance":   &clearance{},
		"lessons":     &lessons{},
		"instruments": &instruments{units: "in"}, // as in the page's HTML
		"reference":   reference{},
	}
}

// reference is the Reference section, which has only text.
type reference struct{}

func (reference) Listen(Host)      {}
func (reference) Show(app.Model)   {}
func (reference) Follow(app.Model) {}

// fill writes a list of names and values.
func fill(id string, facts []view.Fact) {
	list := dom.ByID(id)
	list.Call("replaceChildren")
	for _, f := range facts {
		div := dom.Put("div", "", list)
		dom.Put("dt", f.Name, div)
		dom.Put("dd", f.Value, div)
	}
}

// putTable writes the table with an id. mark adds to the head of a row.
func putTable(id string, t view.Table, mark func(row int, head js.Value)) {
	writeTable(dom.ByID(id), t, mark)
}

func writeTable(table js.Value, t view.Table, mark func(row int, head js.Value)) {
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

// chartWidth returns the width at which to draw a chart in a box. The style sheet
// stretches it to fill the box, so a narrower chart has larger text, for users who want
// that.
func chartWidth(box js.Value) float64 {
	text, _ := pointer.Wishes()
	return max(min(box.Get("clientWidth").Float(), 640)/max(text, 1), 280)
}
