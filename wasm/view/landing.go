package view

import (
	"slices"

	"pivotbench/core/unit"
	"pivotbench/wasm/app"
)

// landing is the share of strokes that a band holds. mostBands is the number of
// different strokes already played that have one; more would hide each other.
const (
	landing   = 0.9
	mostBands = 8
)

// Bands returns where nine strokes in ten cross their lines: of every cue with strokes
// for the current shot, and of the newest marked strokes for theirs. It is slow, and
// returns nil when on returns false.
func Bands(m *app.Model, t *Sitting, on func() bool) []app.Band {
	line := m.MarkLine()
	here := m.Scene.Format()
	var out []app.Band
	type same struct{ cue, link, at string }
	var seen []same
	for i := len(t.Taken) - 1; i >= 0 && len(seen) < mostBands; i-- {
		k := &t.Noted[t.Taken[i]]
		one := same{k.Cue, k.Link, k.At}
		if k.Mark == "" || slices.Contains(seen, one) || k.Link == here && length(k.At) == line {
			continue
		}
		seen = append(seen, one)
		if land, ok := t.Post.Landed(i, landing); ok {
			out = append(out, app.Band{Cue: t.Cue(k.Cue), From: unit.Length(land.From), To: unit.Length(land.To), Line: length(k.At)})
		}
	}
	slices.Reverse(out)
	sh := m.Scene.Shot()
	for cue := range t.Cues {
		if t.Post.Strokes(cue) == 0 {
			continue
		}
		if !on() {
			return nil
		}
		if land, err := t.Post.Landing(cue, sh, line, landing); err == nil {
			out = append(out, app.Band{Cue: cue, From: unit.Length(land.From), To: unit.Length(land.To), Line: line, Next: true})
		}
	}
	return out
}
