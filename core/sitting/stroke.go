// Package sitting measures cues: what the strokes of one sitting say together
// about how much each cue squirts, and how sure that is.
//
// Every stroke is evidence, however it was seen: which blocker of a gate it met,
// where its ball came to a line, or what a film shows. What all strokes of a
// sitting take as given (elevation, bridge, tip offset, speed, cloth) is off by
// a little, for all strokes alike, so those errors are unknowns of their own.
package sitting

import (
	"errors"
	"math"

	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Stroke is one shot of a sitting: how it was meant, which cue played it and
// what was seen of it.
type Stroke struct {
	Cue  int       // which of the sitting's cues, counted from 0
	Shot shot.Shot // as meant; the pivot length does not matter, PivotSpin is the offset at which it is told
	Seen Sight
}

// A Sight is what was seen of a stroke: a Gate, a Mark or a Film.
type Sight interface {
	check(*shot.Shot) error
	// line returns the distance down the table, from the ball's centre at rest,
	// at which the ball is looked at.
	line(*shot.Shot) unit.Length
	// sees turns the sight into scalars, each compared with one number of a
	// path.
	sees(*shot.Shot) []scalar
	// mirror changes left and right round.
	mirror() Sight
}

// What makes a stroke one that can't have been.
var (
	ErrNoCrossing = errors.New("a ball of this speed does not reach the line")
	ErrNoLine     = errors.New("the line, or the gate, must be more than nothing away from the ball")
	ErrOutcome    = errors.New("at a gate a stroke goes left, clean or right")
	ErrBridge     = errors.New("bridge and grip together are longer than any cue")
	ErrBeyond     = errors.New("the mark is further to the side than the table is wide")
	ErrRead       = errors.New("a mark is read to some error: it must be more than nothing")
	ErrCue        = errors.New("the sitting has no such cue")
	ErrFilm       = errors.New("a film's covariance must be symmetric and positive")
)

// longestCue is more than a cue measures, common practice: no hands are further
// apart.
const longestCue = 65 * unit.Inch

// check finds what makes a stroke one that can't have been, apart from where its
// ball goes.
func (k *Stroke) check() error {
	h := k.Shot.Hands
	switch {
	case k.Cue < 0:
		return ErrCue
	case !(h.Bridge >= 0 && h.Grip >= 0 && h.Bridge+h.Grip <= longestCue):
		return ErrBridge
	case !(k.Seen.line(&k.Shot) > 0):
		return ErrNoLine
	}
	return k.Seen.check(&k.Shot)
}

// wrong is the share of strokes that are noted down wrongly, whatever happened:
// common practice, no source.
const wrong = 0.02

// corridor is half the width of the ball's way between the blockers: where its
// centre changes from one outcome to the next. Where their lanes overlap there
// is none, and the nearer one is met first.
func corridor(s *shot.Shot) float64 {
	return math.Max(0, float64(s.Gate.Gap/2-s.Ball.Radius))
}
