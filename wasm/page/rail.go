//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/wasm/app"
)

// listenRail takes the marks as they are typed.
func (p *page) listenRail() {
	each("[data-mark]", func(input js.Value) {
		listen(input, "change", func(js.Value) {
			m := p.model.Kept.Marks
			*markField(&m, input) = input.Get("value").String()
			p.do(app.SetMarks{Marks: m})
		})
	})
	listen(byID("rail"), "toggle", func(js.Value) { p.renderRail() })
}

// markField is the part of the marks that an input holds.
func markField(m *app.MarksText, input js.Value) *string {
	switch input.Get("dataset").Get("mark").String() {
	case "right":
		return &m.Right
	case "left":
		return &m.Left
	}
	return &m.Rail
}

// renderRail writes what the marks say, where it is in sight.
func (p *page) renderRail() {
	if p.section != "measure" || !byID("rail").Get("open").Bool() {
		return
	}
	m := p.model.Kept.Marks
	focus := document.Get("activeElement")
	each("[data-mark]", func(input js.Value) {
		if !focus.Equal(input) {
			set(input, "value", *markField(&m, input))
		}
	})
	each(".rail-unit", func(el js.Value) { set(el, "textContent", p.model.Scene.Units) })
	p.rail = app.RailFinding{Note: "Enter the distance and the marks."}
	if m != (app.MarksText{}) {
		p.rail = app.WeighMarks(&p.model.Scene, m, moment())
	}
	fill(byID("rail-facts"), len(p.rail.Facts), func(i int) (string, string) { return p.rail.Facts[i].Name, p.rail.Facts[i].Value })
	set(byID("rail-note"), "textContent", p.rail.Note)
	document.Call("querySelector", `[data-do="save-rail"]`).Set("disabled", p.rail.Cue.Pivot == "")
}
