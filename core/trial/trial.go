// Package trial measures a cue: what tries at a gate, or marks on a rail, say
// about its natural pivot length, and how sure they are.
package trial

import (
	"errors"
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// An Outcome is what a try at the gate came to.
type Outcome int

// The outcomes: the blocker met first, or neither.
const (
	Left Outcome = iota
	Clean
	Right
	outcomes // how many there are
)

// A Try is one stroke at the gate. Shot is how it was meant: its pivot length
// does not matter, all else does.
type Try struct {
	Shot    shot.Shot
	Outcome Outcome
}

// ErrNoCrossing is a try whose ball can't have reached the gate.
var ErrNoCrossing = errors.New("a ball of this speed does not reach the gate")

// The priors of what is not known. The elevation that was typed in carries an
// error that all tries share: at low speed one degree moves the ball more than
// an inch of pivot length does, so leaving it out would make the intervals
// falsely narrow.
const (
	PivotLeast   = 5 * unit.Inch
	PivotMost    = 60 * unit.Inch
	ScatterLeast = 0.1 * unit.Degree
	ScatterMost  = 1.5 * unit.Degree
	AimSpread    = 0.25 * unit.Degree
	ElevSpread   = 1 * unit.Degree
	misrecorded  = 0.02 // share of tries noted down wrongly, to any outcome alike
	pivots       = 72   // points of the grid, on a log scale
	scatters     = 10   // on a log scale
	aims         = 11   // out to 2.5 spreads
	elevs        = 7    // likewise
	spreadsReach = 2.5
)

// bounds are where the ball's centre changes from one outcome to the next: the
// corridor between the blockers. Where their lanes overlap there is none, and
// the nearer one is met first.
func bounds(s *shot.Shot) float64 {
	return math.Max(0, float64(s.Gate.Gap/2-s.Ball.Radius))
}

// crossing is the sideways position at which the unobstructed path of a shot
// comes to the line of the gate.
func crossing(s *shot.Shot, p *motion.Path) (float64, error) {
	if err := s.Send(p); err != nil {
		return 0, err
	}
	when, err := p.AtLine(s.Gate.Dist)
	if err != nil {
		return 0, ErrNoCrossing
	}
	at, _ := p.At(when)
	return at.Pos.X, nil
}

// chances are the probabilities of the outcomes for a ball whose centre comes
// to the gate at Normal(x, spread), with the share misrecorded mixed in.
func chances(x, spread, bound float64) (p [outcomes]float64) {
	if math.IsInf(x, 1) {
		return p
	}
	below := normal((-bound - x) / spread)
	above := normal((x - bound) / spread)
	p = [outcomes]float64{below, math.Max(0, 1-below-above), above}
	for i := range p {
		p[i] = (1-misrecorded)*p[i] + misrecorded/float64(outcomes)
	}
	return p
}

// normal is the distribution function of the standard Normal distribution.
func normal(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
