//go:build js && wasm

package section

import (
	"slices"
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/sheet"
	"pivotbench/wasm/view"
)

// listenCues takes which cue is measured: by its name, by a tap on one that has strokes,
// or by a new name for it.
func (s *measure) listenCues() {
	dom.Listen(dom.ByID("measuring"), "change", func(js.Value) { s.Do(app.MeasureCue{Name: dom.Text("measuring")}) })
	dom.On("measure-cue", func(el js.Value) { s.Do(app.MeasureCue{Name: dom.Entry(s.cues, el)}) })
	dom.On("rename-cue", func(js.Value) {
		m := s.Model()
		dom.ByID("new-name").Set("value", m.Measuring)
		dom.Hide("rename", false)
		dom.ByID("new-name").Call("focus")
	})
	dom.On("rename-leave", func(js.Value) { dom.Hide("rename", true) })
	dom.On("rename-take", func(js.Value) { s.rename() })
	dom.Listen(dom.ByID("new-name"), "keydown", func(e js.Value) {
		if e.Get("key").String() == "Enter" {
			e.Call("preventDefault")
			s.rename()
		}
	})
}

// rename gives the measured cue another name.
func (s *measure) rename() {
	before := s.Model()
	s.Do(app.RenameCue{Was: before.Measuring, Name: dom.Text("new-name")})
	after := s.Model()
	if after.Notices == nil {
		dom.Hide("rename", true)
		s.Say(view.RenamedWords(&before, &after))
	}
}

// showCues writes the cues of the sitting as buttons, the measured one pressed.
func (s *measure) showCues(m *app.Model) {
	if focus := dom.Document.Get("activeElement"); !focus.Equal(dom.ByID("measuring")) {
		dom.Set(dom.ByID("measuring"), "value", m.Measuring)
	}
	cues := view.SittingCues(m)
	if slices.Equal(cues, s.shownCues) {
		return
	}
	s.shownCues, s.cues = cues, nil
	names := dom.ByID("measuring-names")
	names.Call("replaceChildren")
	for _, name := range view.CueNames(m) {
		dom.Put("option", "", names).Set("value", name)
	}
	list := dom.ByID("sitting-cues")
	list.Call("replaceChildren")
	for i, cue := range cues {
		s.cues = append(s.cues, cue.Name)
		button := dom.PutButton(cue.Words, cue.Label, "measure-cue", i, dom.Put("li", "", list))
		button.Call("setAttribute", "aria-pressed", cue.On)
	}
	list.Set("hidden", len(cues) < 2)
}

// showSurer draws how sure it has become which cue squirts less.
func (s *measure) showSurer(m *app.Model) {
	t := s.weigher.sitting
	cue, styles := t.Cue(m.Measuring), sheet.CueStyles(&m.Scene, t.Cues)
	var curves []sheet.SureCurve
	for _, c := range view.Surer(t, cue) {
		curves = append(curves, sheet.SureCurve{Style: styles[c.Cue], Name: c.Name, Strokes: c.Strokes, Less: c.Less})
	}
	dom.Hide("which", len(curves) == 0)
	if len(curves) == 0 {
		return
	}
	box := dom.ByID("surer")
	chart := sheet.Surer(&m.Scene, curves, chartWidth(box), 150)
	box.Set("innerHTML", sheet.SVG(&chart, view.SurerWords(t, cue)))
}
