//go:build js && wasm

package section

import (
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/view"
)

// listenRound handles a class that plays in turn.
func (s *players) listenRound() {
	dom.On("take-turns", func(js.Value) { s.Do(app.TakeTurns{On: true}) })
	dom.On("leave-turns", func(js.Value) { s.Do(app.TakeTurns{}) })
	dom.On("pass-turn", func(js.Value) { s.Do(app.PassTurn{}) })
	dom.On("sit-out", func(js.Value) { s.Do(app.SitOut{}) })
	dom.On("take-back-turn", func(js.Value) { s.Do(app.TakeBackTurn{}) })
}

// showRound writes whose turn it is, and a button for each player.
func (s *players) showRound(m *app.Model) {
	r := view.RoundOf(m, dom.Text("player-find"))
	on := r.Rows != nil
	for _, id := range []string{"players", "class-bar"} {
		dom.Hide(id, on)
	}
	for _, id := range []string{"round", "round-names", "round-bar"} {
		dom.Hide(id, !on)
	}
	dom.Say("round-head", r.Head)
	dom.Say("round-last", r.Last)
	dom.Doer("take-back-turn").Set("disabled", r.Last == "")
	list := dom.ByID("round-names")
	list.Call("replaceChildren")
	for _, row := range r.Rows {
		name := dom.PutButton(row.Words, row.Full, "choose-player", row.Index, dom.Put("li", "", list))
		name.Call("setAttribute", "aria-pressed", row.Chosen)
		name.Get("classList").Call("toggle", "out", row.Out)
		if row.Chosen { // it stays in sight, and the rest of the page where it is
			list.Set("scrollTop", name.Get("offsetTop").Float()-list.Get("clientHeight").Float()/3)
		}
	}
}
