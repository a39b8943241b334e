//go:build js && wasm

package section

import (
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// listenRail takes the marks as they are typed.
func (s *measure) listenRail() {
	dom.Each("[data-mark]", func(input js.Value) {
		dom.Listen(input, "change", func(js.Value) {
			marks := s.Model().Kept.Marks
			*markField(&marks, input) = input.Get("value").String()
			s.Do(app.SetMarks{Marks: marks})
		})
	})
	dom.On("rail-other", func(js.Value) {
		marks := s.Model().Kept.Marks
		marks.OtherRight, marks.OtherLeft, marks.Right, marks.Left = marks.Right, marks.Left, "", ""
		s.Do(app.SetMarks{Marks: marks})
	})
	dom.On("save-rail", func(js.Value) { saveCue(s.Host, app.SaveCue{Cue: s.rail.Cue}) })
	dom.Listen(dom.ByID("rail"), "toggle", func(js.Value) {
		m := s.Model()
		s.showRail(&m)
	})
}

// markField returns the part of the marks that an input holds.
func markField(m *store.Marks, input js.Value) *string {
	switch dom.Data(input, "mark") {
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

// showRail writes what the marks say, if that part is open.
func (s *measure) showRail(m *app.Model) {
	if !dom.ByID("rail").Get("open").Bool() {
		return
	}
	marks := m.Kept.Marks
	focus := dom.Document.Get("activeElement")
	dom.Each("[data-mark]", func(input js.Value) {
		if !focus.Equal(input) {
			dom.Set(input, "value", *markField(&marks, input))
		}
	})
	dom.Each(".rail-unit", func(el js.Value) { dom.Set(el, "textContent", m.Scene.Units) })
	s.rail = view.RailOf(m, device.Moment())
	fill("rail-facts", s.rail.Facts)
	dom.Say("rail-note", s.rail.Note)
	dom.Doer("save-rail").Set("disabled", s.rail.Cue.Pivot == "")
}
