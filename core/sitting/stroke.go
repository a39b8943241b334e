// Package sitting measures cues: it estimates from the strokes of one sitting how
// much each cue squirts, and how certain that is.
//
// A stroke can be observed in three ways: which blocker of a gate the ball hit
// first, where the ball crossed a line, or what a film shows. The stated conditions
// of a sitting (elevation, bridge, tip offset, speed, cloth) have small errors that
// are the same for all its strokes, so those errors are unknowns of the model. The
// strokes of a player on several days are several sittings: each has errors of its own,
// of which a part is his habit and the same every time.
package sitting

import (
	"errors"
	"math"

	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Stroke is one shot of a sitting: the intended shot, the cue, and what was
// observed.
type Stroke struct {
	Cue     int       // index of the cue in the sitting, counted from 0
	Shot    shot.Shot // as intended; Cue.Pivot is ignored, Cue.PivotSpin is the offset that pivot lengths refer to
	Seen    Sight
	Sitting int // index of the sitting, from 0 to less than MostSittings; each has set-up errors of its own

	swap float64 // the probability that left and right were exchanged; more than 0 only to look for such strokes
}

// A Sight is an observation of a stroke: a Gate, a Mark or a Film.
type Sight interface {
	check(*shot.Shot) error
	// line returns the distance down the table, from the ball's centre at rest,
	// at which the ball is observed.
	line(*shot.Shot) unit.Length
	// sees returns the sight as scalars, each to be compared with one number
	// computed from a path.
	sees(*shot.Shot) []scalar
	// mirror returns the sight with left and right swapped.
	mirror() Sight
}

// The reasons why a stroke is impossible.
var (
	ErrNoCrossing = errors.New("a ball of this speed does not reach the line")
	ErrNoLine     = errors.New("the distance of the line or gate must be more than 0")
	ErrOutcome    = errors.New("at a gate the ball hits left, passes clean or hits right")
	ErrBridge     = errors.New("bridge and grip together are longer than any cue")
	ErrBeyond     = errors.New("the mark is beyond the side of the table")
	ErrRead       = errors.New("the reading error of a mark must be more than 0")
	ErrCue        = errors.New("there is no such cue in these strokes")
	ErrStopped    = errors.New("stopped before the stroke was added")
	ErrSitting    = errors.New("there are more sittings than can be told apart")
	ErrFilm       = errors.New("the errors of a film must form a symmetric, positive matrix")
)

// longestCue is the largest sum of bridge and grip that is accepted. No cue is that
// long. Common practice, no source.
const longestCue = 65 * unit.Inch

// check returns the reason why a stroke is impossible, or nil. It does not compute
// the ball's path.
func (k *Stroke) check() error {
	h := k.Shot.Hands
	switch {
	case k.Cue < 0:
		return ErrCue
	case !(k.Sitting >= 0 && k.Sitting < MostSittings):
		return ErrSitting
	case !(h.Bridge >= 0 && h.Grip >= 0 && h.Bridge+h.Grip <= longestCue):
		return ErrBridge
	case !(k.Seen.line(&k.Shot) > 0):
		return ErrNoLine
	}
	return k.Seen.check(&k.Shot)
}

// wrong is the share of strokes that are recorded wrongly, whatever happened.
// Common practice, no source.
const wrong = 0.02

// corridor returns half the width, in metres, of the range of the ball's centre in
// which it passes between the blockers cleanly. It is 0 when the gap is too narrow
// for the ball; the ball then hits the nearer blocker first.
func corridor(s *shot.Shot) float64 {
	return math.Max(0, float64(s.Gate.Gap/2-s.Ball.Radius))
}
