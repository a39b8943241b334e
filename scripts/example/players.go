package main

import (
	"fmt"
	"math"
	"math/rand/v2"

	"pivotbench/core/sitting"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// A pupil is a player of the class, with what his hands really do.
type pupil struct {
	store.Player
	gain    float64 // how far the front hand moves, as a multiple of what it feels
	scatter unit.Angle
	bias    unit.Angle
	strokes int
	saved   bool // whether what the strokes told is saved with the player
}

// pupils are four of the class: three have a card, and the fourth, who has no cue of his
// own, has just begun.
var pupils = []pupil{
	{store.Player{Name: "Ines", Hand: "right", Bridge: "9.5in; 9.3in; 9.7in", Grip: "30in", Elev: "2.5deg; 2deg; 3deg", Slow: "3.9mph; 3.6mph; 4.2mph", Medium: "7mph; 6.6mph; 7.4mph", Firm: "11.5mph; 10.9mph; 12.1mph", SlowName: "soft", Cue: "House 3", Notes: "Says all back hand for soft shots."}, 1.6, 0.2 * unit.Degree, 0.1 * unit.Degree, 8, true},
	{store.Player{Name: "Magnus", Hand: "left", Bridge: "11in", Grip: "31in", Elev: "3deg", Cue: "House 7"}, 1, 0.3 * unit.Degree, -0.15 * unit.Degree, 8, true},
	{store.Player{Name: "Petra", Hand: "right", Bridge: "8.5in; 8.3in; 8.7in", Grip: "29in", Elev: "2deg", Slow: "4mph", Medium: "7.5mph", Firm: "13mph", FirmName: "break speed", Cue: "Slender", Notes: "Used to play House 3."}, 2, 0.15 * unit.Degree, 0, 7, true},
	{store.Player{Name: "Teo", Hand: "right", Bridge: "12in"}, 1.3, 0.4 * unit.Degree, 0.2 * unit.Degree, 2, false},
}

// pivotOf is the pivot length that a cue of the class plays with. A house cue that nobody
// has measured is as House 3.
func pivotOf(name string) unit.Length {
	for _, c := range classCues {
		if c.name == name {
			return c.pivot
		}
	}
	return classCues[0].pivot
}

// playCards has the players of the class play for their cards, each the strokes that tell
// most.
func playCards(do func(...app.Event) error, m *app.Model) error {
	r := rand.New(rand.NewPCG(2026, 12))
	minute := 0
	for _, p := range pupils {
		p.When = "2026-11-24T20:00:00Z"
		if err := do(app.OpenPlayerForm{New: true}, app.SavePlayerForm{Player: p.Player}); err != nil {
			return err
		}
		f, err := view.NewPlayerFit(m)
		if err != nil {
			return fmt.Errorf("%s: %w", p.Name, err)
		}
		who := sitting.Tester{Pivot: pivotOf(p.Cue), Scatter: p.scatter, Aim: p.bias, Front: math.Log(p.gain)}
		read, _ := p.Player.Player()
		for range p.strokes {
			next := f.Finding(sitting.ByMark, "").Proposals[0]
			k, err := who.AtLine(next.Of(f.Fit), read.SetUp(sitting.Habit), sitting.Mark{Line: next.Line, Read: sitting.ByEye, Across: m.Scene.GearTable().Width}, r)
			if err != nil {
				return fmt.Errorf("%s: %w", p.Name, err)
			}
			minute++
			when := fmt.Sprintf("2026-11-24T20:%02d:00Z", minute)
			if err := do(app.NoteTurn{Strokes: []store.Stroke{f.Marked(next, tenths(k.Seen.(sitting.Mark).At), "3mm", when)}}); err != nil {
				return err
			}
			turns := m.Kept.TurnsOf(p.Name)
			f, _ = f.AddWhile(turns[len(turns)-1], func() bool { return true })
		}
		if chosen, _ := m.Chosen(); p.saved {
			if err := do(app.KeepFit{Was: chosen, Fit: f.Learned(), When: fmt.Sprintf("2026-11-24T20:%02d:30Z", minute)}); err != nil {
				return err
			}
		}
	}
	return nil
}
