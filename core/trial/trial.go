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

// What makes a try, or a mark, one that can't have been.
var (
	ErrNoCrossing = errors.New("a ball of this speed does not reach the gate")
	ErrNoGate     = errors.New("the gate stands nowhere: its distance must be more than zero")
	ErrOutcome    = errors.New("a try is left, clean or right")
	ErrBridge     = errors.New("bridge and grip together are longer than any cue")
)

// longestCue is more than a cue measures, common practice: no hands are further
// apart.
const longestCue = 65 * unit.Inch

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
	Misrecorded  = 0.02 // share of tries noted down wrongly, to any outcome alike
)

// check finds what makes a try one that can't have been, apart from where its
// ball goes.
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

// corridor is half the width of the ball's way between the blockers: where its
// centre changes from one outcome to the next. Where their lanes overlap there
// is none, and the nearer one is met first.
func corridor(gap, radius unit.Length) float64 {
	return math.Max(0, float64(gap/2-radius))
}

// crossing is the sideways position at which the unobstructed path of a shot
// comes to the line of the gate. A stroke that was noted down did not slip,
// whatever the friction of the tip is thought to be.
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

// off is an elevation with an error, as far as a cue can be held.
func off(elevation, by unit.Angle) unit.Angle {
	return min(max(elevation+by, 0), 89*unit.Degree)
}

// span is where the ball's centre has to come to the line of the gate for an
// outcome.
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

// never is a place no ball comes to: that of a stroke which stops short with
// this cue. Only by mistake can a try have been noted down.
var never = math.Inf(1)

// noted is the chance that an outcome is noted down which comes about with
// this one.
func noted(chance float64) float64 {
	return (1-Misrecorded)*chance + Misrecorded/float64(outcomes)
}
