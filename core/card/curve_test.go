package card_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/card"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

func curves(t *testing.T, s shot.Shot, dists []unit.Length, speeds []unit.Speed) []card.Curve {
	t.Helper()
	out, err := card.Curves(&s, dists, speeds)
	require.NoError(t, err)
	require.Len(t, out, len(speeds))
	return out
}

// Effective squirt is squirt minus swerve, as the readings have them at that distance.
// The heading of the cue does not matter.
func TestNetIsSquirtLessSwerve(t *testing.T) {
	for _, elevation := range []unit.Angle{0, 3, 12} {
		s := medium()
		s.Elevation, s.AimOff, s.ByStroke = elevation*unit.Degree, 0.03, true
		for i, c := range curves(t, s, dists, speeds) {
			assert.Equal(t, speeds[i], c.Speed)
			require.Len(t, c.Points, len(dists))
			for j, p := range c.Points {
				at := s
				at.Dist, at.Speed, at.ByStroke, at.AimOff = dists[j], speeds[i], false, 0
				var res shot.Result
				shot.Play(&at, &res)
				assert.Equal(t, dists[j], p.Dist)
				assert.InDelta(t, float64(res.Reading.Squirt.Value-res.Reading.Swerve.Value), float64(p.Net), 1e-13)
				if elevation == 0 {
					assert.InDelta(t, float64(res.Reading.Squirt.Value), float64(p.Net), 1e-13, "nothing swerves")
				}
			}
		}
	}
}

// Common practice, no source: with the butt up, the effective squirt of a slow shot falls
// faster with distance than that of a hard one, until the ball rolls.
func TestSlowCurvesFallFaster(t *testing.T) {
	got := curves(t, medium(), dists, speeds)
	for i, c := range got {
		last := c.Points[len(c.Points)-1].Net
		assert.Less(t, last, c.Points[0].Net)
		if i > 0 {
			slower := got[i-1].Points
			assert.Less(t, slower[len(slower)-1].Net, last)
			for j := range c.Points {
				assert.Less(t, slower[j].Net, c.Points[j].Net, "at %v", c.Points[j].Dist)
			}
		}
	}
}

func TestACurveEndsWhereTheBallStops(t *testing.T) {
	s := medium()
	got := curves(t, s, inches(1, 12, 36, 100), milesPerHour(0.9, 7))
	assert.Len(t, got[1].Points, 4)
	require.Less(t, len(got[0].Points), 4)
	require.NotEmpty(t, got[0].Points)
	s.Speed = 0.9 * unit.MilePerHour
	var res shot.Result
	shot.Play(&s, &res)
	end, _ := res.Path.At(res.Path.Stop())
	stop := unit.Length(end.Pos.Norm())
	assert.LessOrEqual(t, got[0].Points[len(got[0].Points)-1].Dist, stop)
	_, err := res.Path.AtCircle(inches(1, 12, 36, 100)[len(got[0].Points)])
	assert.ErrorIs(t, err, motion.ErrStops)
}

func TestNoCurveOfAMiscue(t *testing.T) {
	s := medium()
	s.Contact.Side = 0.6
	got, err := card.Curves(&s, dists, speeds)
	assert.ErrorIs(t, err, strike.ErrMiscue)
	assert.Nil(t, got)
}
