package cues

import (
	"math"

	"pivotbench/core/gear"
	"pivotbench/core/margin"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// A Candidate is a cue to be compared: Gear, except that Known gives its squirt
// instead of Gear.Pivot. Gear.PivotSpin is the offset that its pivot length is for.
type Candidate struct {
	Gear  gear.Cue
	Known EndMass
}

// With returns a shot with this cue at its median pivot length.
func (c *Candidate) With(s *shot.Shot) shot.Shot { return c.with(s, 0) }

// with returns a shot with this cue, its end mass some standard deviations off the
// median.
func (c *Candidate) with(s *shot.Shot, spreads float64) shot.Shot {
	at := *s
	at.Cue = c.Gear
	mass := math.Exp(c.Known.Log + spreads*c.Known.Spread)
	at.Cue.Pivot = strike.NaturalPivot(at.Cue.PivotSpin, float64(at.Ball.Mass)/mass, at.Ball, at.Cue.Tip)
	return at
}

// arrival returns the sideways offset of the cue ball at its target, positive to
// the right.
func arrival(s *shot.Shot) (float64, error) {
	var path motion.Path
	if err := s.Send(&path); err != nil {
		return 0, err
	}
	when, err := path.AtCircle(s.Dist)
	if err != nil {
		return 0, err
	}
	there, _ := path.At(when)
	return there.Pos.X, nil
}

// landing returns the median arrival, and its standard deviation from what is
// unknown about the cue.
func (c *Candidate) landing(s *shot.Shot) (x, spread float64, err error) {
	var at [3]float64
	for i, z := range []float64{-1, 0, 1} {
		sh := c.with(s, z)
		if at[i], err = arrival(&sh); err != nil {
			return 0, 0, err
		}
	}
	return at[1], math.Abs(at[2]-at[0]) / 2, nil
}

// Evening is how many shots a player has with either cue to tell them apart: more
// than anyone plays of one kind in an evening. Common practice, no source.
const Evening = 30

// Noticeable returns the difference of two means that a two-sided test at the 5 %
// level detects four times out of five, from Evening shots of each. The shots
// scatter about the means with the standard deviations a and b.
//
// Source: Cohen, Statistical Power Analysis for the Behavioral Sciences (1988),
// chapter 2, in the Normal limit.
func Noticeable(a, b unit.Length) unit.Length {
	level, power := stat.Reach(0.95), stat.NormalQuantile(0.8)
	return unit.Length((level + power) * math.Sqrt(float64(a*a+b*b)/Evening))
}

// notice returns the difference that a player would notice between two cues on a
// shot.
func notice(s *shot.Shot, a, b *Candidate, sc margin.Scatter) (unit.Length, error) {
	var spread [2]unit.Length
	for i, c := range []*Candidate{a, b} {
		sh := c.With(s)
		var err error
		if spread[i], err = margin.Spread(&sh, sc); err != nil {
			return 0, err
		}
	}
	return Noticeable(spread[0], spread[1]), nil
}

// A Likeness is what can be said about the difference of two cues on a shot.
type Likeness int

// The likenesses.
const (
	Same    Likeness = iota // less than a player would notice, all of its interval
	Alike                   // less than a player would notice, but the interval is not
	Perhaps                 // more, but the interval holds less
	Differs                 // more than a player would notice, all of its interval
)

// A Landing is how far apart two cues send the ball at one distance with the same
// stroke: the first less the second, positive to the right.
type Landing struct {
	Dist   unit.Length
	Apart  stat.Estimate[unit.Length]
	Notice unit.Length // a player would not notice less than this
	Err    error       // why the shot can't be compared; Apart and Notice are then not set
}

// Likeness compares the difference with what a player would notice.
func (l *Landing) Likeness() Likeness {
	within := l.Apart.From >= -l.Notice && l.Apart.To <= l.Notice
	beyond := l.Apart.From > l.Notice || l.Apart.To < -l.Notice
	switch {
	case within:
		return Same
	case beyond:
		return Differs
	case unit.Abs(l.Apart.Median) <= l.Notice:
		return Alike
	}
	return Perhaps
}

// Landings compares two cues on one shot at several distances. The player's stance
// and stroke are the same with both.
func Landings(s *shot.Shot, a, b *Candidate, sc margin.Scatter, dists []unit.Length) []Landing {
	out := make([]Landing, len(dists))
	for i, d := range dists {
		at := *s
		at.Dist = d
		out[i] = land(&at, a, b, sc)
	}
	return out
}

func land(s *shot.Shot, a, b *Candidate, sc margin.Scatter) Landing {
	xa, sa, err := a.landing(s)
	if err != nil {
		return Landing{Dist: s.Dist, Err: err}
	}
	xb, sb, err := b.landing(s)
	if err != nil {
		return Landing{Dist: s.Dist, Err: err}
	}
	least, err := notice(s, a, b, sc)
	if err != nil {
		return Landing{Dist: s.Dist, Err: err}
	}
	// A cue's landing moves with its end mass, so the two have as much in common.
	both := sa * sb * correlation(a.Known, b.Known)
	apart := stat.NormalEstimate(unit.Length(xa-xb), unit.Length(math.Sqrt(max(sa*sa+sb*sb-2*both, 0))))
	return Landing{Dist: s.Dist, Notice: least, Apart: apart}
}
