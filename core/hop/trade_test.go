package hop

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/gear"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// Trade facts about hops; common practice, no source. Each holds for a range of contact
// times and is not claimed outside it.

// climb returns how high a shot hops with a cue, in any fixed unit.
func climb(t *testing.T, s shot.Shot, cue gear.Cue, ratio float64) float64 {
	s.Cue = cue
	up := max(0, pressed(t, s, ratio, steps).Vel.Z)
	return up * up
}

// Leather of 1.5 ms and a hard tip of 0.7 ms on a bed of 0.7 ms: from 25° to 45°, and at
// the same speed of the hand, the hard tip hops at least twice as high, on a light cue
// too.
func TestALightHardTippedCueHopsMuchHigher(t *testing.T) {
	const bed = 0.7
	for _, elevation := range []unit.Angle{25, 30, 35, 40, 45} {
		for _, height := range []float64{-0.2, -0.1, 0, 0.1} {
			s := steep()
			s.Elevation, s.Contact.Height = elevation*unit.Degree, height
			ordinary, hard := s.Cue, s.Cue
			hard.Tip.Restitution = 0.87
			light := hard
			light.Mass = 280 * unit.Gram
			leather := climb(t, s, ordinary, 1.5/bed)
			assert.Greater(t, climb(t, s, hard, 0.7/bed), 2*leather, "%v°, %v R", elevation, height)
			assert.Greater(t, climb(t, s, light, 0.7/bed), 2*leather, "%v°, %v R", elevation, height)
		}
	}
}

// With the same leather tip and at the same speed of the hand, a light cue hops higher
// from 35° to 45° if the tip's contact lasts half as long again as the bed's or a little
// more, and lower up to 40° if it is shorter.
func TestALightCueOnTheSameTip(t *testing.T) {
	both := func(elevation unit.Angle, ratio float64) (light, ordinary float64) {
		s := steep()
		s.Elevation = elevation * unit.Degree
		cue := s.Cue
		cue.Mass = 280 * unit.Gram
		return climb(t, s, cue, ratio), climb(t, s, s.Cue, ratio)
	}
	for _, elevation := range []unit.Angle{35, 40, 45} {
		for _, ratio := range []float64{1.6, 1.7, 1.8} {
			light, ordinary := both(elevation, ratio)
			assert.Greater(t, light, ordinary, "%v°, %v", elevation, ratio)
		}
	}
	for _, elevation := range []unit.Angle{15, 20, 25, 30, 35, 40} {
		for _, ratio := range []float64{0.3, 0.5, 0.7, 0.9, 1} {
			light, ordinary := both(elevation, ratio)
			assert.Less(t, light, ordinary, "%v°, %v", elevation, ratio)
		}
	}
	light, ordinary := both(45, 0.7)
	assert.Greater(t, light, ordinary, "not at a steeper angle")
}

// An ordinary shaft hops somewhat higher than a low-deflection one, by up to a quarter,
// just below centre from 25° to 35°. At 40° the tip meets the ball twice, and either may
// hop higher.
func TestAnOrdinaryShaftHopsSomewhatHigher(t *testing.T) {
	for _, elevation := range []unit.Angle{25, 30, 35} {
		for _, height := range []float64{-0.1, -0.05} {
			for _, ratio := range []float64{1, 1.2, 1.4, 1.6} {
				s := steep()
				s.Elevation, s.Contact.Height = elevation*unit.Degree, height
				ordinary, low := s.Cue, s.Cue
				ordinary.Pivot, low.Pivot = 9.5*unit.Inch, 19*unit.Inch
				more := climb(t, s, ordinary, ratio) / climb(t, s, low, ratio)
				assert.Greater(t, more, 1.0, "%v°, %v R, %v", elevation, height, ratio)
				assert.Less(t, more, 1.25, "%v°, %v R, %v", elevation, height, ratio)
			}
		}
	}
}

// Each of the three cues clears part of a ball: 1/8 in of it on either side, at 12 in and
// 40°, below the hardest that people strike, for a middling contact.
func TestAnyCueClearsPartOfABall(t *testing.T) {
	for _, c := range []struct {
		mass  unit.Mass
		pivot unit.Length
		e     float64
		ratio float64
	}{{280 * unit.Gram, 12 * unit.Inch, 0.87, 1}, {540 * unit.Gram, 9.5 * unit.Inch, 0.75, 1.6}, {540 * unit.Gram, 19 * unit.Inch, 0.75, 1.6}} {
		s := steep()
		s.Cue.Mass, s.Cue.Pivot, s.Cue.Tip.Restitution = c.mass, c.pivot, c.e
		v, err := LeastSpeed(&s, c.ratio)
		assert.NoError(t, err)
		assert.Less(t, v, Hardest)
	}
}

// Only the ratio counts: halving both contact times changes no hop.
func TestOnlyTheRatioOfTimesCounts(t *testing.T) {
	half := Touch{Tip: stat.Interval[unit.Span]{From: 0.5e-3, To: 1e-3}, Bed: stat.Interval[unit.Span]{From: 0.25e-3, To: 0.5e-3}}
	whole := Touch{Tip: leather, Bed: slate}
	assert.Equal(t, whole.Ratios(), half.Ratios())
	assert.Equal(t, stat.Interval[float64]{From: 1, To: 4}, whole.Ratios())
}
