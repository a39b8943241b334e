package view

import (
	"strconv"

	"pivotbench/core/player"
	"pivotbench/core/scenario"
	"pivotbench/core/sitting"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// ProposalWords says how to play a proposed stroke.
func (f *PlayerFit) ProposalWords(p player.Proposal) string {
	played := f.scene
	played.Side = p.Side
	pace := ""
	for _, at := range f.who.Paces {
		if at.Speed.Best() == p.Speed {
			pace = at.Name
		}
	}
	speed := phrase.Brief(scenario.DisplayOf(unit.SpeedKind, f.scene.Units).Format(float64(p.Speed)))
	seen := "mark where it crosses the line at " + phrase.Brief(phrase.Length(&f.scene, p.Line))
	if p.Kind == sitting.ByGate {
		seen = "tap what it hits first at the gate, " + phrase.Brief(phrase.Length(&f.scene, p.Line)) + " away"
	}
	return "Next: " + pace + " (" + speed + "), " + phrase.EnglishInFull(&played) + ", " + feltWords(p.Share) +
		". Aim straight, and " + seen + "."
}

// feltWords says how to put on the english, with a felt share of the back hand.
func feltWords(share float64) string {
	switch {
	case share == 0:
		return "all of it with the front hand"
	case share < 1:
		return phrase.Percent(share) + " with the back hand as you feel it, the rest with the front hand"
	}
	return "all of it with the back hand"
}

// A TurnRow is a stroke of the chosen player in his list.
type TurnRow struct {
	Number, Share, English, Speed, Line, Mark string
}

// TurnRows returns the strokes of a player as rows, in the order in which they were
// played.
func TurnRows(turns []store.Turn, units string) []TurnRow {
	var out []TurnRow
	long := scenario.DisplayOf(unit.LengthKind, units)
	for i, t := range turns {
		s, _ := scenario.Parse(t.Link)
		row := TurnRow{Number: strconv.Itoa(i + 1), Share: phrase.Percent(s.Back), English: unit.Round(s.Side, unit.Ratio, "", 2) + " R"}
		row.Speed = phrase.Brief(scenario.DisplayOf(unit.SpeedKind, units).Format(float64(s.Speed)))
		if t.See != "" {
			row.Line, row.Mark = phrase.Brief(long.Format(float64(s.Gate))), SeenWords(t.See)
		} else {
			row.Line, row.Mark = phrase.Brief(long.Format(float64(length(t.At)))), long.Format(float64(length(t.Mark)))
		}
		out = append(out, row)
	}
	return out
}

// Cells returns the stroke's cells in the list, each with the heading of its column.
func (r *TurnRow) Cells() [][2]string {
	return [][2]string{{"#", r.Number}, {"back hand", r.Share}, {"english", r.English}, {"speed", r.Speed}, {"line", r.Line}, {"mark", r.Mark}}
}
