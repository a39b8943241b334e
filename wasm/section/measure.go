//go:build js && wasm

package section

import (
	"syscall/js"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/sheet"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// measure is the Measure section: the strokes of a sitting, noted down and
// weighed.
type measure struct {
	Host
	strokes strokes
	weigher weigher
	finding view.Finding
	flipped store.Stroke // the last mark on the other side, where that is asked about
}

func (s *measure) Listen(h Host) {
	s.Host = h
	s.listenStrokes()
	s.listenSetUp()
	dom.On("take-next", func(js.Value) {
		h.Do(app.SetAll{Sets: s.finding.Sets})
		if m := h.Model(); s.finding.Line > 0 {
			dom.ByID("mark-line").Set("value", view.LineText(&m, s.finding.Line))
		}
	})
	dom.On("gap-by-cards", func(js.Value) { s.gapByCards() })
	dom.On("use-pivot", func(js.Value) { s.usePivot() })
	dom.On("save-measured", func(js.Value) { s.saveMeasured() })
	dom.Listen(dom.ByID("measuring"), "change", func(js.Value) { h.Do(app.MeasureCue{Name: dom.Text("measuring")}) })
}

// Show writes the list of strokes, and has them weighed, when they, the cue or the
// set-up have changed.
func (s *measure) Show(m app.Model) {
	changed := s.strokes.show(&m)
	if changed || s.weigher.of != weighing(&m) {
		s.weigh()
	}
	s.showSetUp(&m)
	if focus := dom.Document.Get("activeElement"); !focus.Equal(dom.ByID("measuring")) {
		dom.Set(dom.ByID("measuring"), "value", m.Measuring)
	}
	dom.Each(".line-unit", func(el js.Value) { dom.Set(el, "textContent", m.Scene.Units) })
	dom.Set(dom.ByID("mark-line"), "placeholder", view.LineText(&m, view.MarkLine(&m)))
	words := view.CorrectionWords(&m)
	dom.Hide("editing", words == "")
	dom.Set(dom.Find("#editing span"), "textContent", words)
	old := view.OldMarks(&m)
	dom.Hide("old-marks", old == "")
	dom.Set(dom.Find("#old-marks p"), "textContent", old)
}

func (s *measure) Follow(app.Model) {} // nothing: the computation runs by itself

// showFinding writes what the strokes say.
func (s *measure) showFinding(m *app.Model) {
	f, t := &s.finding, s.weigher.sitting
	dom.Say("finding", f.Head)
	dom.Say("next", f.Next)
	fill("facts", f.Facts)
	dom.Say("limit", f.Limit)
	fill("others", f.Others)
	dom.Doer("use-pivot").Set("disabled", f.Pivot == 0)
	dom.Doer("save-measured").Set("disabled", f.Pivot == 0)
	dom.Doer("take-next").Set("hidden", len(f.Sets) == 0)
	box := dom.ByID("density")
	chart := sheet.Density(&m.Scene, t.Post, t.Cue(m.Measuring), chartWidth(box), 150)
	box.Set("innerHTML", sheet.SVG(&chart, "How likely each pivot length is. "+f.Head))
	var ask bool
	s.flipped, ask = t.OtherSide()
	dom.Hide("other-side", !ask)
	if ask {
		dom.Set(dom.Find("#other-side span"), "textContent", view.OtherSideWords(m, t))
	}
	names := dom.ByID("measuring-names")
	names.Call("replaceChildren")
	for _, name := range view.CueNames(m) {
		dom.Put("option", "", names).Set("value", name)
	}
}

// usePivot uses the measured pivot length in the shot.
func (s *measure) usePivot() {
	m := s.Model()
	text := scenario.Find("pivot").StepText(float64(s.finding.Pivot), m.Scene.Units)
	s.Do(app.SetAll{Sets: []app.Setting{{Key: "pivot", Text: text}}})
	s.Do(app.OpenSection{Name: "shot"})
}

// gapByCards sets the gap to one ball plus some cards or coins.
func (s *measure) gapByCards() {
	many, err := unit.Parse(dom.Text("cards"), unit.Ratio, "")
	thick, errThick := unit.Parse(dom.Text("thick"), unit.LengthKind, "mm")
	if err != nil || errThick != nil || many < 0 || thick < 0 {
		s.Say("give a number of cards, and how thick one is, as in 1.5 mm")
		return
	}
	m := s.Model()
	s.Do(app.SetAll{Sets: []app.Setting{view.CardGap(&m.Scene, many, unit.Length(thick))}})
}

// saveMeasured puts what the strokes say on the list of cues.
func (s *measure) saveMeasured() {
	m, t := s.Model(), s.weigher.sitting
	if s.finding.Pivot == 0 {
		s.Say("note some strokes first")
		return
	}
	saveCue(s.Host, app.SaveCue{Cue: view.MeasuredCue(&m, t, device.Moment())})
}
