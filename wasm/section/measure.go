//go:build js && wasm

package section

import (
	"cmp"
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
	filming filming
	finding view.Finding

	text, line written // in the fields of the mark
	table      atTable
	cues       []string          // the cues that have buttons
	shownCues  []view.SittingCue // as they were written
}

func (s *measure) Listen(h Host) {
	s.Host = h
	s.listenStrokes()
	s.listenSetUp()
	s.filming.listen(h)
	dom.On("film-note", func(js.Value) { s.note(app.NoteFilm{Cue: h.Model().Measuring, When: device.Moment()}) })
	dom.On("keep-film", func(js.Value) {
		k := h.Model().Correction.Stroke
		s.note(app.NoteStroke{Cue: k.Cue, Mark: k.Mark, At: k.At, Read: k.Read, Film: k.Film})
	})
	dom.On("take-next", func(js.Value) {
		h.Do(app.SetAll{Sets: s.finding.Sets})
		if s.finding.Line > 0 {
			m := h.Model()
			s.setMarking(func(k *app.Marking) { k.Line = app.FieldLength(s.finding.Line, m.Scene.Units) })
		}
	})
	dom.On("gap-by-cards", func(js.Value) { s.gapByCards() })
	dom.On("use-pivot", func(js.Value) { s.usePivot() })
	dom.On("save-measured", func(js.Value) { s.saveMeasured() })
	s.listenCues()
	s.listenTable()
}

// Show writes the list of strokes, and has them weighed, when they, the cue or the
// set-up have changed.
func (s *measure) Show(m app.Model) {
	changed := s.strokes.show(&m)
	if changed || s.weigher.of != weighing(&m) {
		s.weigh()
	}
	if changed {
		s.askSides(&m)
	}
	s.showSetUp(&m)
	s.showCues(&m)
	s.showTable(&m)
	s.filming.show(&m)
	s.text.put(dom.ByID("mark-text"), m.Marking.Text)
	s.line.put(dom.ByID("mark-line"), m.Marking.Line)
	dom.Set(dom.ByID("mark-read"), "value", cmp.Or(m.Marking.Read, app.Reads[0]))
	dom.Each(".line-unit", func(el js.Value) { dom.Set(el, "textContent", m.Scene.Units) })
	dom.Set(dom.ByID("mark-text"), "placeholder", view.MarkExample(m.Scene.Units))
	dom.Set(dom.ByID("mark-line"), "placeholder", app.FieldLength(m.MarkLine(), m.Scene.Units))
	words := view.CorrectionWords(&m)
	dom.Hide("editing", words == "")
	dom.Set(dom.Find("#editing span"), "textContent", words)
	dom.Doer("keep-film").Set("hidden", m.Correction.Stroke.Film == (store.Film{}))
	old := view.OldMarks(&m)
	dom.Hide("old-marks", old == "")
	dom.Set(dom.Find("#old-marks p"), "textContent", old)
}

// A written is the text that was last written to a field.
type written string

// put writes a text to a field, unless the field holds something newer that the user has
// typed and that the model is about to hear of.
func (w *written) put(field js.Value, text string) {
	if now := field.Get("value").String(); now == string(*w) || now == text {
		dom.Set(field, "value", text)
		*w = written(text)
	}
}

func (s *measure) Follow(app.Model) {} // nothing: the computation runs by itself

// showFinding writes what the strokes say.
func (s *measure) showFinding(m *app.Model) {
	f, t := &s.finding, s.weigher.sitting
	s.showFound()
	box := dom.ByID("density")
	lengths, likely, pivot := t.Density(m.Measuring)
	chart := sheet.Density(&m.Scene, lengths, likely, pivot, chartWidth(box), 150)
	box.Set("innerHTML", sheet.SVG(&chart, view.DensityPictured+f.Head))
	since := ""
	if f.Since != "" {
		since = device.Day(f.Since)
	}
	dom.Say("since", view.SinceWords(since))
	dom.Say("at-progress", f.Progress(f.Strokes))
	s.showSurer(m)
	s.askSides(m)
}

// showPending says, in the place of the answer, that it is on its way. The last answer
// about the same cue stays in its place.
func (s *measure) showPending() {
	m := s.Model()
	w := &s.weigher
	done, of := w.log.Progress()
	f := view.Pending(&m, done, of)
	dom.Say("next", f.Next)
	dom.Doer("take-next").Set("hidden", true)
	if w.sitting != nil && w.cue == store.CueKey(m.Measuring) {
		return
	}
	if s.finding = f; w.sitting != nil {
		w.sitting = nil
		dom.ByID("density").Call("replaceChildren")
		dom.Hide("which", true)
	}
	s.showFound()
}

// showFound writes the parts of a finding that have no pictures.
func (s *measure) showFound() {
	f := &s.finding
	dom.Say("finding", f.Head)
	data := dom.ByID("finding").Get("dataset")
	data.Set("value", f.Exact.Value)
	data.Set("from", f.Exact.From)
	data.Set("to", f.Exact.To)
	data.Set("why", f.Exact.Why)
	fill("facts", f.Facts)
	dom.Say("limit", f.Limit)
	fill("others", f.Others)
	dom.Doer("use-pivot").Set("disabled", f.Pivot == 0)
	dom.Doer("save-measured").Set("disabled", f.Pivot == 0)
}

// askSides asks about strokes that fit far better on the other side of the aim line. Where
// there are none, it says how the strokes fit, and suggests the next one.
func (s *measure) askSides(m *app.Model) {
	asked := s.weigher.log.Asked(m)
	next, fit := view.CheckFirst(m, asked), ""
	dom.Set(dom.Find("#other-side span"), "textContent", view.OtherSideWords(m, asked))
	dom.Hide("other-side", next == "")
	dom.Doer("take-next").Set("hidden", next != "" || len(s.finding.Sets) == 0)
	if next == "" {
		next, fit = s.finding.Next, s.weigher.fit
	}
	dom.Say("next", next)
	dom.Say("fit", fit)
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
		s.Say(view.CardsNeeded)
		return
	}
	m := s.Model()
	s.Do(app.SetAll{Sets: []app.Setting{view.CardGap(&m.Scene, many, unit.Length(thick))}})
}

// saveMeasured puts what the strokes say on the list of cues.
func (s *measure) saveMeasured() {
	m, t := s.Model(), s.weigher.sitting
	if s.finding.Pivot == 0 {
		s.Say(view.StrokesNeeded)
		return
	}
	records := view.MeasuredCues(&m, t, device.Moment())
	if records == nil {
		s.Say(view.AlreadySaved)
		return
	}
	saveCue(s.Host, app.SaveCues{Cues: records})
}
