package margin_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/margin"
	"pivotbench/core/shot"
	"pivotbench/core/stance"
	"pivotbench/core/unit"
)

// dialled returns a shot aimed at the target, with the english put on by some hands. The
// cue ends on the same line whichever hands did it.
func dialled(t *testing.T, s shot.Shot, back, front float64) shot.Shot {
	t.Helper()
	s.Hands.Back, s.Hands.Front = back, front
	var res shot.Result
	shot.Play(&s, &res)
	require.NoError(t, res.Reading.Aim.Err())
	s.AimOff = res.Reading.Aim.Value - res.Reading.Heading.Value
	return s
}

// The cue is on one line, whichever hand put it there, and wanders about one bridge hand:
// so the strokes go the same ways. Only a dialling error tells the hands apart, since what
// it does to the cue's angle is the hands' doing.
func TestWanderDoesNotAskWhoDialled(t *testing.T) {
	m := margin.NewSampler(4000)
	wanders, dials := margin.Scatter{Tip: 2 * unit.Millimetre}, margin.Scatter{Dial: 2 * unit.Millimetre}
	goal := margin.OnTarget(6 * unit.Millimetre)
	for _, bridge := range []unit.Length{8 * unit.Inch, 18 * unit.Inch} {
		s := medium()
		s.Hands.Bridge = bridge
		back := dialled(t, s, 1, 0)
		share, spread := m.Success(&back, wanders, goal).Share, spreadOf(t, back, wanders)
		require.Less(t, share, 0.97)
		require.Greater(t, share, 0.3)
		for name, h := range map[string]stance.Hands{"front": {Front: 1}, "parallel": {}, "half": {Back: 0.5, Front: 0.5}} {
			other := dialled(t, s, h.Back, h.Front)
			assert.InDelta(t, share, m.Success(&other, wanders, goal).Share, 0.01, "%s, bridge %v", name, bridge)
			assert.InEpsilon(t, spread, spreadOf(t, other, wanders), 0.01, "%s, bridge %v", name, bridge)
			if name != "half" {
				assert.Greater(t, math.Abs(spreadOf(t, other, dials)/spreadOf(t, back, dials)-1), 0.1, "%s, bridge %v", name, bridge)
			}
		}
		// With the back hand alone both turn the cue about the bridge.
		assert.InEpsilon(t, spreadOf(t, back, dials), lateral(t, back, wanders), 1e-3)
	}
}

func spreadOf(t *testing.T, s shot.Shot, sc margin.Scatter) float64 {
	t.Helper()
	v, err := margin.Spread(&s, sc)
	require.NoError(t, err)
	return float64(v)
}

// lateral is the part of the spread that the sideways wander makes.
func lateral(t *testing.T, s shot.Shot, sc margin.Scatter) float64 {
	t.Helper()
	v, err := margin.Slope(&s, margin.TipStray)
	require.NoError(t, err)
	return unit.Abs(v) * float64(sc.Tip)
}

// The standard deviations that Spread adds up are those of the strokes.
func TestSpreadOfDiallingAndWander(t *testing.T) {
	s := dialled(t, medium(), 0.3, 0.7)
	m := margin.NewSampler(4000)
	sc := margin.Scatter{Tip: 0.5 * unit.Millimetre, Dial: 0.8 * unit.Millimetre}
	band := m.Band(&s, sc, 0.9, []unit.Length{s.Dist})
	require.Len(t, band, 1)
	assert.InEpsilon(t, 2*1.645*spreadOf(t, s, sc), float64(band[0].To-band[0].From), 0.03)
}
