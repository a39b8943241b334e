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

// measure is the Measure section: strokes at a gate and on the rail, and what they say
// about the cue.
type measure struct {
	Host
	rail    view.RailFinding
	tries   tries
	weigher weigher
	finding view.Finding
	help    []app.Setting // settings that would help, for the controls
}

func (s *measure) Listen(h Host) {
	s.Host = h
	s.listenTries()
	dom.On("take-next", func(js.Value) { h.Do(app.SetAll{Sets: s.finding.Sets}) })
	dom.On("take-help", func(js.Value) { h.Do(app.SetAll{Sets: s.help}) })
	dom.On("gap-by-cards", func(js.Value) { s.gapByCards() })
	dom.On("use-pivot", func(js.Value) { s.usePivot() })
	dom.On("save-measured", func(js.Value) { s.saveMeasured() })
	s.listenRail()
}

// Show writes the list of strokes and starts the computation if they or the set-up have
// changed.
func (s *measure) Show(m app.Model) {
	changed := s.tries.show(&m)
	if changed || s.weigher.at != m.Scene.Format() {
		s.weigh()
	}
	s.showRail(&m)
	words := view.CorrectionWords(&m)
	dom.Hide("editing", words == "")
	dom.Set(dom.Find("#editing span"), "textContent", words)
}

func (s *measure) Follow(app.Model) {} // nothing: the computation runs by itself

// showFinding writes what the strokes say.
func (s *measure) showFinding(scene *scenario.Scenario) {
	f := &s.finding
	dom.Say("finding", f.Head)
	dom.Say("next", f.Next)
	dom.Say("limit", f.Limit)
	fill("facts", f.Facts)
	dom.List("flaws", f.Flaws)
	dom.Doer("use-pivot").Set("disabled", f.Pivot == 0)
	dom.Doer("take-next").Set("hidden", len(f.Sets) == 0)
	box := dom.ByID("density")
	chart := sheet.Density(scene, s.weigher.post, chartWidth(box), 150)
	box.Set("innerHTML", sheet.SVG(&chart, "How likely each pivot length is. "+f.Head))
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

// saveMeasured saves the result to the list of cues.
func (s *measure) saveMeasured() {
	if s.weigher.post == nil || s.weigher.post.N() == 0 {
		s.Say("note some tries first")
		return
	}
	m := s.Model()
	if p := scenario.Find("name").Set(&m.Scene, dom.Text("cue-name"), ""); p != nil {
		s.Do(app.Tell{Notices: []string{p.Error()}})
		return
	}
	saveCue(s.Host, app.SaveCue{Cue: store.Measured(&m.Scene, s.weigher.post.Pivot(), "gate", device.Moment())})
}
