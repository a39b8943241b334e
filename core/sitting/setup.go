package sitting

import (
	"math"

	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A SetUp holds the standard deviations of the systematic errors of a sitting:
// errors in the stated conditions that are the same for all its strokes. Front is
// for a player whose felt shares are to be told from his real ones; at 0 they are
// the same.
type SetUp struct {
	Elevation unit.Angle  // elevation of the cue
	Bridge    unit.Length // bridge length; the bridge hand is not a point
	Offset    float64     // tip offset in ball radii, positive away from the centre on both sides
	Speed     float64     // as a share of the speed
	Slide     float64     // as a share of the cloth's sliding friction
	Front     float64     // of the logarithm of the front hand's gain (see stance.Hands.Moved)
}

// Habit is the set-up of a careful tester with a tape measure and no other
// instruments. The values are common practice, no source.
var Habit = SetUp{Elevation: 1 * unit.Degree, Bridge: 0.25 * unit.Inch, Offset: 0.02, Speed: 0.15, Slide: 0.15}

// The unknowns that all strokes of a sitting share. Each has a standard Normal
// prior: first the set-up errors, in units of their standard deviations, then the
// player's unknowns, last the logarithm of the front hand's gain.
const (
	// ElevationError, SpeedError and SlideError are the indices of the errors in the
	// cue's elevation, the speed and the sliding friction, which instruments can reduce.
	ElevationError = iota
	bridge
	offset
	SpeedError
	SlideError
	setUps      // number of set-up errors
	aim         = setUps
	scatter     = setUps + 1
	front       = setUps + 2
	allUnknowns = setUps + 3
)

// The priors of the player: AimSpread is the standard deviation of the constant aim
// bias, and the stroke-to-stroke scatter of direction is log-uniform between
// ScatterLeast and ScatterMost. Common practice, no source.
const (
	AimSpread    = 0.25 * unit.Degree
	ScatterLeast = 0.05 * unit.Degree
	ScatterMost  = 1.5 * unit.Degree
)

// off returns the shot with one of the set-up errors applied, z standard deviations
// large. It applies none when which is -1. A recorded stroke did not miscue,
// whatever the stated tip friction, so the tip friction is infinite.
func (u SetUp) off(s shot.Shot, which int, z float64) shot.Shot {
	s.Cue.Tip.Friction = math.Inf(1)
	switch which {
	case ElevationError:
		s.Elevation = min(max(s.Elevation+u.Elevation*unit.Angle(z), 0), 89*unit.Degree)
	case bridge:
		s.Hands.Bridge = max(s.Hands.Bridge+u.Bridge*unit.Length(z), 0)
	case offset:
		s.Contact.Side += math.Copysign(1, s.Contact.Side) * u.Offset * z
	case SpeedError:
		s.Speed *= unit.Speed(max(0.05, 1+u.Speed*z))
	case SlideError:
		s.Cloth.Slide *= max(0.05, 1+u.Slide*z)
	}
	return s
}

// The grid of natural pivot lengths at the reference offset, on a logarithmic
// scale. A cue beyond its ends can't be measured: its posterior piles up at an end,
// which Leans reports.
const (
	PivotLeast = 4 * unit.Inch
	PivotMost  = 80 * unit.Inch
	pivots     = 120
)

// grid holds the midpoints of the grid's steps, in metres.
var grid = func() (out [pivots]float64) {
	for i := range out {
		out[i] = onGrid(float64(i) + 0.5)
	}
	return out
}()

// onGrid returns the pivot length in metres at a position on the grid, in steps
// from its lower edge.
func onGrid(at float64) float64 {
	return float64(PivotLeast) * math.Pow(float64(PivotMost/PivotLeast), at/pivots)
}
