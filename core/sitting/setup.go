package sitting

import (
	"math"

	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A SetUp is how far off what the strokes of a sitting take as given may be, for
// all of them alike: one standard deviation each.
type SetUp struct {
	Elevation unit.Angle  // of the cue
	Bridge    unit.Length // a bridge is not a point
	Offset    float64     // of the tip, in ball radii, outward on both sides
	Speed     float64     // as a share of it
	Slide     float64     // sliding friction of the cloth, as a share of it
}

// Habit is the set-up of a careful tester with a tape and no instruments: common
// practice, no source.
var Habit = SetUp{Elevation: 1 * unit.Degree, Bridge: 0.25 * unit.Inch, Offset: 0.02, Speed: 0.15, Slide: 0.15}

// The unknowns that a sitting's strokes share, each standard Normal a priori:
// the set-up's errors in their standard deviations, then the player's own.
const (
	// ElevationError is that of the cue's elevation, which an instrument can
	// narrow.
	ElevationError = iota
	bridge
	offset
	speed
	slide
	setUps      // how many of these there are
	aim         = setUps
	scatter     = setUps + 1
	allUnknowns = setUps + 2
)

// The priors of the player: a constant aim bias, and the scatter of direction
// from stroke to stroke, log-uniform between two bounds. Common practice, no
// source.
const (
	AimSpread    = 0.25 * unit.Degree
	ScatterLeast = 0.05 * unit.Degree
	ScatterMost  = 1.5 * unit.Degree
)

// off returns a shot as it really was with one of the set-up's errors, z of its
// standard deviations large. A stroke that was noted did not slip, whatever the
// friction of the tip is thought to be.
func (u SetUp) off(s shot.Shot, which int, z float64) shot.Shot {
	s.Cue.Tip.Friction = math.Inf(1)
	switch which {
	case ElevationError:
		s.Elevation = min(max(s.Elevation+u.Elevation*unit.Angle(z), 0), 89*unit.Degree)
	case bridge:
		s.Hands.Bridge = max(s.Hands.Bridge+u.Bridge*unit.Length(z), 0)
	case offset:
		s.Contact.Side += math.Copysign(1, s.Contact.Side) * u.Offset * z
	case speed:
		s.Speed *= unit.Speed(max(0.05, 1+u.Speed*z))
	case slide:
		s.Cloth.Slide *= max(0.05, 1+u.Slide*z)
	}
	return s
}

// The grid of natural pivot lengths at the reference offset, on a log scale. A
// cue beyond its ends is not measured: the answer leans on an edge.
const (
	PivotLeast = 4 * unit.Inch
	PivotMost  = 80 * unit.Inch
	pivots     = 120
)

// grid holds the middles of the grid's steps, in metres.
var grid = func() (out [pivots]float64) {
	for i := range out {
		out[i] = onGrid(float64(i) + 0.5)
	}
	return out
}()

// onGrid returns the pivot length at a place on the grid, in steps from its
// lower edge.
func onGrid(at float64) float64 {
	return float64(PivotLeast) * math.Pow(float64(PivotMost/PivotLeast), at/pivots)
}
