//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// listenRail takes the marks as they are typed.
func (m *measuring) listenRail() {
	each("[data-mark]", func(input js.Value) {
		dom.Listen(input, "change", func(js.Value) {
			marks := m.model.Kept.Marks
			*markField(&marks, input) = input.Get("value").String()
			m.do(app.SetMarks{Marks: marks})
		})
	})
	m.actions["rail-other"] = func(js.Value) {
		marks := m.model.Kept.Marks
		marks.OtherRight, marks.OtherLeft, marks.Right, marks.Left = marks.Right, marks.Left, "", ""
		m.do(app.SetMarks{Marks: marks})
	}
	dom.Listen(byID("rail"), "toggle", func(js.Value) { m.renderRail() })
}

// markField is the part of the marks that an input holds.
func markField(m *store.Marks, input js.Value) *string {
	switch input.Get("dataset").Get("mark").String() {
	case "right":
		return &m.Right
	case "left":
		return &m.Left
	case "other-right":
		return &m.OtherRight
	case "other-left":
		return &m.OtherLeft
	}
	return &m.Rail
}

// renderRail writes what the marks say, where it is in sight.
func (m *measuring) renderRail() {
	if !byID("rail").Get("open").Bool() {
		return
	}
	marks := m.model.Kept.Marks
	focus := document.Get("activeElement")
	each("[data-mark]", func(input js.Value) {
		if !focus.Equal(input) {
			set(input, "value", *markField(&marks, input))
		}
	})
	each(".rail-unit", func(el js.Value) { set(el, "textContent", m.model.Scene.Units) })
	m.rail = view.RailFinding{Note: "Enter the distance and the marks."}
	if marks != (store.Marks{}) {
		m.rail = view.WeighMarks(&m.model.Scene, marks, moment())
	}
	fill(byID("rail-facts"), len(m.rail.Facts), func(i int) (string, string) { return m.rail.Facts[i].Name, m.rail.Facts[i].Value })
	set(byID("rail-note"), "textContent", m.rail.Note)
	doer("save-rail").Set("disabled", m.rail.Cue.Pivot == "")
}
