// Package trial measures a cue: it estimates the natural pivot length from tries
// at a gate, or from marks on a rail.
package trial

import (
	"errors"
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// An Outcome is the result of a try at the gate.
type Outcome int

// The outcomes: the blocker met first, or neither.
const (
	Left Outcome = iota
	Clean
	Right
	outcomes // how many there are
)

// A Try is one stroke at the gate. Shot is the intended shot; its pivot length
// does not matter.
type Try struct {
	Shot    shot.Shot
	Outcome Outcome
}

// Errors of tries and marks.
var (
	ErrNoCrossing = errors.New("a ball of this speed does not reach the gate")
	ErrNoGate     = errors.New("the gate stands nowhere: its distance must be more than zero")
	ErrOutcome    = errors.New("a try is left, clean or right")
	ErrBridge     = errors.New("bridge and grip together are longer than any cue")
)

// longestCue is longer than any cue, common practice: no hands are further apart.
const longestCue = 65 * unit.Inch

// The priors of the unknowns. The elevation that was typed in has an error that
// all tries share: at low speed one degree moves the ball more than an inch of
// pivot length does, so without it the intervals would be too narrow.
const (
	PivotLeast   = 5 * unit.Inch
	PivotMost    = 60 * unit.Inch
	ScatterLeast = 0.1 * unit.Degree
	ScatterMost  = 1.5 * unit.Degree
	AimSpread    = 0.25 * unit.Degree
	ElevSpread   = 1 * unit.Degree
	Misrecorded  = 0.02 // probability that a try is recorded wrongly, with any outcome alike
)

// check returns why a try is impossible, apart from where its ball goes, or nil.
func (t *Try) check() error {
	switch s := &t.Shot; {
	case t.Outcome < Left || t.Outcome > Right:
		return ErrOutcome
	case !(s.Gate.Dist > 0):
		return ErrNoGate
	case !(s.Hands.Bridge >= 0 && s.Hands.Grip >= 0 && s.Hands.Bridge+s.Hands.Grip <= longestCue):
		return ErrBridge
	}
	return nil
}

// corridor returns half the width of the corridor between the blockers: the
// sideways position of the ball's centre at which the outcome changes. Where the
// blockers' lanes overlap there is no corridor, and the nearer blocker is met
// first.
func corridor(gap, radius unit.Length) float64 {
	return math.Max(0, float64(gap/2-radius))
}

// crossing returns the sideways position at which the unobstructed path of a shot
// crosses the line of the gate. A stroke that was recorded did not slip, whatever
// the friction of the tip is thought to be.
func crossing(s *shot.Shot, p *motion.Path) (float64, error) {
	at := *s
	at.Cue.Tip.Friction = math.Inf(1)
	if err := at.Send(p); err != nil {
		return 0, err
	}
	when, err := p.AtLine(s.Gate.Dist)
	if err != nil {
		return 0, ErrNoCrossing
	}
	there, _ := p.At(when)
	return there.Pos.X, nil
}

// off returns an elevation with an error, within what a cue can be held at.
func off(elevation, by unit.Angle) unit.Angle {
	return min(max(elevation+by, 0), 89*unit.Degree)
}

// span returns the positions of the ball's centre on the line of the gate that
// have an outcome.
func (o Outcome) span(half float64) (from, to float64) {
	switch o {
	case Left:
		return math.Inf(-1), -half
	case Right:
		return half, math.Inf(1)
	default:
		return -half, half
	}
}

// never is the position of a ball that stops short of the gate with this cue. Such
// a try can only have been recorded by mistake.
var never = math.Inf(1)

// noted returns the probability that an outcome is recorded when it happens with
// probability p.
func noted(p float64) float64 {
	return (1-Misrecorded)*p + Misrecorded/float64(outcomes)
}
