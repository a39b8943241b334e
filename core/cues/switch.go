package cues

import (
	"cmp"
	"slices"

	"pivotbench/core/card"
	"pivotbench/core/margin"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Change is what a player who changes cues has to aim differently on one shot of
// an aim card.
type Change struct {
	Dist     unit.Length
	Speed    unit.Speed
	Shift    unit.Length // of the point of aim, at the target; positive: further right with the new cue
	Widths   float64     // Shift in widths of the old cue's tip
	From, To shot.Answer[float64]
	// From and To are the back-hand shares at the player's own bridge and grip.
	Notice unit.Length // a player would not notice less than this
	Err    error       // why the shot can't be played with one of the cues
}

// Relearn reports whether a player would notice the change.
func (c *Change) Relearn() bool {
	return c.Err == nil && unit.Abs(c.Shift) > c.Notice
}

// Switch returns the changes from one cue to another on a card of distances and
// speeds, the largest first. Shots that can't be played come last.
func Switch(s *shot.Shot, from, to *Candidate, sc margin.Scatter, dists []unit.Length, speeds []unit.Speed) []Change {
	was, is := from.With(s), to.With(s)
	before, after := card.Make(&was, dists, speeds), card.Make(&is, dists, speeds)
	var out []Change
	for i := range before {
		for j := range before[i] {
			at := *s
			at.Dist, at.Speed, at.ByStroke = dists[i], speeds[j], false
			out = append(out, change(&at, &before[i][j], &after[i][j], from, to, sc))
		}
	}
	size := func(c Change) unit.Length {
		if c.Err != nil {
			return -1
		}
		return unit.Abs(c.Shift)
	}
	slices.SortStableFunc(out, func(a, b Change) int { return cmp.Compare(size(b), size(a)) })
	return out
}

func change(s *shot.Shot, before, after *card.Cell, from, to *Candidate, sc margin.Scatter) Change {
	c := Change{Dist: s.Dist, Speed: s.Speed, Err: before.Err}
	if c.Err == nil {
		c.Err = after.Err
	}
	if c.Err == nil {
		c.Notice, c.Err = notice(s, from, to, sc)
	}
	if c.Err == nil {
		c.Shift = after.Shift - before.Shift
		c.Widths = float64(c.Shift / from.Gear.Tip.Width)
		c.From, c.To = before.Share, after.Share
	}
	return c
}
