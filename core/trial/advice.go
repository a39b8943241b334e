package trial

import (
	"math"

	"pivotbench/core/margin"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// PassRange returns the bridge lengths, among those a player can reach, that all
// pass clean with a cue of this pivot length, back-hand english and a perfect
// stroke: what the gate can't tell apart. ok is false if there are none.
func PassRange(s *shot.Shot, pivot, least, most unit.Length) (from, to unit.Length, ok bool) {
	const rungs = 400
	var path motion.Path
	at := *s
	at.Cue.Pivot = pivot
	at.Hands.Back, at.Hands.Front = 1, 0
	half := corridor(s.Gate.Gap, s.Ball.Radius)
	for i := range rungs + 1 {
		at.Hands.Bridge = least + (most-least)*unit.Length(i)/rungs
		x, err := crossing(&at, &path)
		if err != nil || math.Abs(x) >= half {
			continue
		}
		if !ok {
			from = at.Hands.Bridge
		}
		to, ok = at.Hands.Bridge, true
	}
	return from, to, ok
}

// A Change is a change of the set-up that makes tries more informative.
type Change int

// The changes that are weighed.
const (
	NarrowGap Change = iota
	MoreSide
	Faster
	LevelCue
	FartherGate
	NoChange
)

// Improve returns the one change of a set-up that makes the interval of the pivot
// length after twenty more tries narrowest, and by what factor narrower than
// without it. It returns NoChange and 1 if no change makes it a tenth narrower.
func (p *Posterior) Improve(s *shot.Shot, tip, least, most unit.Length) (Change, float64) {
	best, factor := NoChange, 1.0
	for c := range NoChange {
		at := *s
		if !c.Apply(&at, tip) {
			continue
		}
		f := p.Narrower(s, &at, least, most)
		if f > max(1.1, factor) {
			best, factor = c, f
		}
	}
	return best, factor
}

// Narrower returns how many times narrower the interval of the pivot length is
// after twenty more tries with another set-up than with this one.
func (p *Posterior) Narrower(s, other *shot.Shot, least, most unit.Length) float64 {
	const tries = 20
	return math.Sqrt(p.outlook(s, least, most).after(tries) / p.outlook(other, least, most).after(tries))
}

// Apply makes the change of a shot's set-up. It returns false if there is no room
// for it, for a player whose tip lands with a standard deviation of tip.
func (c Change) Apply(s *shot.Shot, tip unit.Length) bool {
	diam := 2 * s.Ball.Radius
	switch c {
	case NarrowGap:
		was := s.Gate.Gap
		s.Gate.Gap = max(diam+tightest, was-0.5*unit.Inch)
		return s.Gate.Gap < was
	case MoreSide:
		was := math.Abs(s.Contact.Side)
		most, err := margin.PlayableSide(s, tip)
		if err != nil {
			return false
		}
		s.Contact.Side = math.Min(most, was+0.1)
		return s.Contact.Side > was
	case Faster:
		s.Speed *= 1.5
		return s.Speed < 12*unit.MilePerHour
	case LevelCue:
		was := s.Elevation
		s.Elevation = max(was-2*unit.Degree, 1*unit.Degree)
		return s.Elevation < was
	case FartherGate:
		s.Gate.Dist *= 1.4
		return s.Gate.Dist < 60*unit.Inch
	}
	return false
}
