package sitting

import (
	"math"

	"pivotbench/core/motion"
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

// size returns the standard deviation of one of the errors, 0 when there is
// none.
func (u SetUp) size(which int) float64 {
	return [...]float64{float64(u.Elevation), float64(u.Bridge), u.Offset, u.Speed, u.Slide}[which]
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

// A forecast is what a measure comes to for every pivot length of the grid, and
// how it follows the set-up's errors, to second order.
type forecast struct {
	mid         [pivots]float64
	slope, bend [setUps][pivots]float64
	moves       [setUps]bool // the errors that matter
	twist       [len(pairs)][pivots]float64
	twists      [len(pairs)]bool
}

// pairs are the errors whose effects multiply: swerve grows with the elevation,
// and by how much hangs on speed and cloth.
var pairs = [...][2]int{{ElevationError, speed}, {ElevationError, slide}}

// reach is how many standard deviations away the slopes are taken.
const reach = 1.5

// never is a measure of a ball that does not come so far with this cue: only by
// mistake can the stroke have been noted.
var never = math.Inf(1)

// forecasts work out measures of one shot. The error says why none of the cues
// of the grid sends a ball that can be measured.
func (u SetUp) forecasts(s *shot.Shot, of []measure) ([]forecast, error) {
	out := make([]forecast, len(of))
	var path motion.Path
	var last error
	some := false
	play := func(at *shot.Shot, pivot float64, into func(int, float64)) {
		at.Cue.Pivot = unit.Length(pivot)
		err := at.Send(&path)
		for i, m := range of {
			v := never
			if err == nil {
				var missed error
				if v, missed = m(&path); missed != nil {
					v, last = never, missed
				}
			} else {
				last = err
			}
			into(i, v)
		}
	}
	straight := u.off(*s, -1, 0)
	for k, pivot := range grid {
		play(&straight, pivot, func(i int, v float64) {
			out[i].mid[k] = v
			some = some || v != never
		})
	}
	if !some {
		return nil, last
	}
	for d := range setUps {
		if u.size(d) == 0 {
			continue
		}
		more, less := u.off(*s, d, reach), u.off(*s, d, -reach)
		for k, pivot := range grid {
			var up [maxScalars]float64
			play(&more, pivot, func(i int, v float64) { up[i] = v })
			play(&less, pivot, func(i int, down float64) {
				f := &out[i]
				if mid := f.mid[k]; mid != never && up[i] != never && down != never {
					f.slope[d][k] = (up[i] - down) / (2 * reach)
					f.bend[d][k] = (up[i] + down - 2*mid) / (2 * reach * reach)
					f.moves[d] = f.moves[d] || math.Abs(up[i]-mid)+math.Abs(down-mid) > 1e-12
				}
			})
		}
	}
	for t, pair := range pairs {
		if u.size(pair[0]) == 0 || u.size(pair[1]) == 0 {
			continue
		}
		for k, pivot := range grid {
			var sum [maxScalars]float64
			for _, signs := range [...][2]float64{{1, 1}, {1, -1}, {-1, 1}, {-1, -1}} {
				at := u.off(u.off(*s, pair[0], signs[0]*reach), pair[1], signs[1]*reach)
				play(&at, pivot, func(i int, v float64) { sum[i] += signs[0] * signs[1] * v })
			}
			for i := range out {
				if f := &out[i]; f.mid[k] != never && !math.IsInf(sum[i], 0) && !math.IsNaN(sum[i]) {
					f.twist[t][k] = sum[i] / (4 * reach * reach)
					f.twists[t] = true
				}
			}
		}
	}
	return out, nil
}

// maxScalars is as many numbers as one sight has at the most.
const maxScalars = 16

// at fills in the measure for the pivot lengths of a span, with the unknowns at z.
func (f *forecast) at(z *[allUnknowns]float64, from, to int, out *[pivots]float64) {
	copy(out[from:to], f.mid[from:to])
	for d, moves := range f.moves {
		if !moves {
			continue
		}
		slope, bend, v := f.slope[d][:to], f.bend[d][:to], z[d]
		for k := from; k < to; k++ {
			out[k] += v * (slope[k] + v*bend[k])
		}
	}
	for t, pair := range pairs {
		if f.twists[t] {
			twist, v := f.twist[t][:to], z[pair[0]]*z[pair[1]]
			for k := from; k < to; k++ {
				out[k] += v * twist[k]
			}
		}
	}
}
