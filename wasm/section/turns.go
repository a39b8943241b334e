//go:build js && wasm

package section

import (
	"syscall/js"

	"pivotbench/core/player"
	"pivotbench/core/sitting"
	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// listenTurns handles the strokes of the chosen player.
func (s *players) listenTurns() {
	dom.On("add-turn", func(js.Value) { s.note() })
	dom.On("gate-turn", func(el js.Value) {
		if s.waits() {
			s.Do(app.NoteTurn{Strokes: []store.Stroke{s.fit.AtGate(s.proposal(), dom.Data(el, "outcome"), device.Moment())}})
		}
	})
	dom.Listen(dom.ByID("turn-read"), "change", func(js.Value) {
		s.of = "" // the suggestion is of another kind
		s.Show(s.Model())
	})
	dom.Listen(dom.ByID("turn-mark"), "keydown", func(e js.Value) {
		if e.Get("key").String() == "Enter" {
			e.Call("preventDefault")
			s.note()
		}
	})
	dom.On("other-turn", func(js.Value) {
		if n := len(s.finding.Proposals); n > 0 {
			s.offered = (s.offered + 1) % n
			s.showProposal()
		}
	})
	dom.On("sheet-turn", func(js.Value) {
		if s.ready && len(s.finding.Proposals) > 0 {
			s.Do(app.Open{Link: s.fit.Link(s.proposal())})
		}
	})
	dom.On("film-turn", func(js.Value) {
		if !s.waits() {
			return
		}
		s.Do(app.FilmPlayer{Link: s.fit.FilmLink(s.proposal())})
		film := dom.ByID("film")
		film.Set("open", true)
		film.Call("scrollIntoView")
		dom.Find("#film > summary").Call("focus", map[string]any{"preventScroll": true})
	})
	dom.On("drop-turn", func(el js.Value) {
		m := s.Model()
		p, _ := m.Chosen()
		s.Do(app.Drop[store.Turn]{Record: dom.Entry(m.Kept.TurnsOf(p.Name), el)})
	})
	dom.On("clear-turns", func(js.Value) {
		m := s.Model()
		p, _ := m.Chosen()
		s.Do(app.ClearTurns{Player: p.Name})
		s.Say(view.TurnsCleared)
	})
}

// note notes the proposed stroke with the mark that is typed.
func (s *players) note() {
	m := s.Model()
	if !s.waits() {
		return
	}
	marks, err := store.ReadLengths(dom.Text("turn-mark"), m.Scene.Units)
	if err != nil {
		s.Do(app.Tell{Notices: []string{view.NotNoted(err)}})
		return
	}
	var strokes []store.Stroke
	for _, mark := range marks {
		strokes = append(strokes, s.fit.Marked(s.proposal(), store.Length(float64(mark)), dom.Text("turn-read"), device.Moment()))
	}
	s.Do(app.NoteTurn{Strokes: strokes})
	if now := s.Model(); now.Changes == m.Changes {
		return // a notice says why
	}
	dom.ByID("turn-mark").Set("value", "")
}

// waits reports whether a stroke is waited for, and says so if it is not shown yet.
func (s *players) waits() bool {
	if s.ready && len(s.finding.Proposals) > 0 {
		return true
	}
	s.Say(view.TurnTooSoon)
	return false
}

func (s *players) proposal() player.Proposal { return s.finding.Proposals[s.offered] }

// atGate is the choice of strokes that are seen at the gate.
const atGate = "gate"

// seenBy returns how the next stroke is to be seen.
func seenBy() sitting.Kind {
	if dom.Text("turn-read") == atGate {
		return sitting.ByGate
	}
	return sitting.ByMark
}

// showTurns writes the strokes of the chosen player.
func (s *players) showTurns(turns []store.Turn, units string) {
	body := dom.Find("#turns tbody")
	body.Call("replaceChildren")
	for i, r := range view.TurnRows(turns, units) {
		row := dom.Put("tr", "", body)
		for _, cell := range r.Cells() {
			dom.Put("td", dom.Unbroken(cell[1]), row).Get("dataset").Set("head", cell[0])
		}
		dom.PutButton("×", view.DeleteStrokeName(r.Number), "drop-turn", i, dom.Put("td", "", row))
	}
	dom.Hide("turns", len(turns) == 0)
	dom.Doer("clear-turns").Set("disabled", len(turns) == 0)
}

// showProposal writes the stroke to be played. The fields stay while it is worked out, so
// that the focus stays too.
func (s *players) showProposal() {
	words := ""
	if len(s.finding.Proposals) > 0 {
		words = s.fit.ProposalWords(s.proposal())
	}
	dom.Say("player-next", words)
	dom.Hide("turn-entry", s.ready && words == "" && seenBy() == sitting.ByMark)
	dom.Hide("turn-marks", seenBy() == sitting.ByGate)
	dom.Hide("turn-gate", seenBy() == sitting.ByMark)
}
