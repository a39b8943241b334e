package hop_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/contact"
	"pivotbench/core/gear"
	"pivotbench/core/hop"
	"pivotbench/core/shot"
	"pivotbench/core/stance"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// The least speed clears, and a slightly lower one does not. If the first flight does it,
// the speed is that of the closed form.
func TestLeastSpeed(t *testing.T) {
	rng := rand.New(rand.NewPCG(71, 72))
	first, other, none := 0, 0, 0
	for range 250 {
		s := anyHop(rng)
		v, err := hop.LeastSpeed(&s, hop.InTurn)
		if err != nil {
			none++
			for _, speed := range []unit.Speed{1, 3, 6, 12} {
				s.Speed = speed
				require.Equal(t, hop.Touches, hop.ClassOf(&s, inTurn, 1), "%v", err)
			}
			continue
		}
		closed, err := hop.FirstFlight(&s, hop.InTurn)
		if err == nil && closed > 0 && math.Abs(float64(v/closed-1)) < 1e-9 {
			first++
		} else {
			other++
		}
		s.Speed = v * (1 + 1e-9)
		require.NotEqual(t, hop.Touches, hop.ClassOf(&s, inTurn, 1))
		s.Speed = v * (1 - 1e-6)
		require.Equal(t, hop.Touches, hop.ClassOf(&s, inTurn, 1))
	}
	assert.Greater(t, first, 60)
	assert.Greater(t, other, 10, "on the cloth past the edge, or by a later flight")
	assert.Greater(t, none, 10)
}

// Far away, a second flight may pass where the first came down short.
func TestALaterFlightMayClear(t *testing.T) {
	s := hopping()
	s.Elevation, s.Gate = 60*unit.Degree, gear.Gate{Dist: 40 * unit.Inch, Gap: 2.2 * unit.Inch}
	s.Cloth.Rebound = 0.75
	v, err := hop.LeastSpeed(&s, hop.InTurn)
	require.NoError(t, err)
	first, err := hop.FirstFlight(&s, hop.InTurn)
	require.NoError(t, err)
	assert.Less(t, v, first)
	s.Speed = v * (1 + 1e-9)
	over, err := hop.Over(send(s), s.Gate.Dist)
	require.NoError(t, err)
	assert.Greater(t, over.Number, 1)
}

// Least elevation and least speed are inverse: at the least elevation for a speed, that
// speed is the edge.
func TestLeastElevation(t *testing.T) {
	rng := rand.New(rand.NewPCG(73, 74))
	found := 0
	for range 60 {
		s := anyHop(rng)
		s.Speed = unit.Speed(between(rng, 4, 10))
		a, err := hop.LeastElevation(&s, hop.InTurn)
		if err != nil {
			require.ErrorIs(t, err, hop.ErrNone)
			continue
		}
		s.Elevation = a
		require.NotEqual(t, hop.Touches, hop.ClassOf(&s, inTurn, 1))
		if a == 0 {
			continue
		}
		found++
		s.Elevation = a - 1e-7
		require.Equal(t, hop.Touches, hop.ClassOf(&s, inTurn, 1))
	}
	assert.Greater(t, found, 15)

	// The blockers are far enough apart that no elevation is needed.
	s := hopping()
	s.Gate.Gap = 3 * unit.Inch
	a, err := hop.LeastElevation(&s, hop.InTurn)
	require.NoError(t, err)
	assert.Zero(t, a)
}

// With a level cue and a hit at centre height there is no hop, and the ball cannot pass a
// gap narrower than itself.
func TestNoHopWithALevelCue(t *testing.T) {
	for _, side := range []float64{0, 0.3} {
		s := hopping()
		s.Elevation, s.Contact.Side = 0, side
		s.Hands.Back = 0 // a parallel shift
		_, err := hop.LeastSpeed(&s, hop.InTurn)
		assert.ErrorIs(t, err, hop.ErrNoHop)
		s.Gate.Gap = 2*radius - 1e-6
		_, err = hop.LeastSpeed(&s, hop.InTurn)
		assert.ErrorIs(t, err, hop.ErrNoHop)
		if side == 0 {
			s.Gate.Gap = 2*radius + 1e-6
			_, err = hop.LeastSpeed(&s, hop.InTurn)
			assert.NoError(t, err, "on the cloth it fits")
		}
	}
	s := hopping()
	s.Cloth.Rebound = 0
	_, err := hop.LeastSpeed(&s, hop.InTurn)
	assert.ErrorIs(t, err, hop.ErrNoHop, "a bed that gives nothing back makes no hop")
}

// A gap of zero is a gap too: the ball passes over the point where the blockers touch.
func TestAGapOfNothing(t *testing.T) {
	s := hopping()
	s.Gate.Gap = 0
	v, err := hop.LeastSpeed(&s, hop.InTurn)
	require.NoError(t, err)
	s.Speed = v
	left, right, err := hop.Needs(send(s), s.Gate, radius)
	require.NoError(t, err)
	assert.InDelta(t, math.Sqrt(3)*float64(radius), float64(left.Height), 1e-12)
	assert.GreaterOrEqual(t, left.Has, left.Height)
	assert.InDelta(t, float64(left.Height), float64(right.Height), 1e-12)
}

func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		change func(*shot.Shot)
		want   error
	}{
		{func(s *shot.Shot) { s.Elevation = 90 * unit.Degree }, hop.ErrUpright},
		{func(s *shot.Shot) { s.Gate.Dist = 0 }, contact.ErrNoGate},
		{func(s *shot.Shot) { s.Gate = gear.Gate{Dist: 1 * unit.Inch, Gap: 1 * unit.Inch} }, contact.ErrOverlap},
		{func(s *shot.Shot) { s.Contact.Height = 0.61 }, strike.ErrMiscue},
		{func(s *shot.Shot) {
			s.Contact.Side, s.Hands = 0.3, stance.Hands{Bridge: 1 * unit.Inch, Grip: 5 * unit.Inch, Back: 5, Front: 5}
		}, stance.ErrTurn},
	} {
		s := hopping()
		c.change(&s)
		_, err := hop.LeastSpeed(&s, hop.InTurn)
		assert.ErrorIs(t, err, c.want)
		_, err = hop.LeastElevation(&s, hop.InTurn)
		assert.ErrorIs(t, err, c.want)
		assert.Equal(t, hop.Touches, hop.ClassOf(&s, inTurn, 1))
	}
	s := hopping()
	s.Gate.Dist = 10 // m: too far even at Most
	s.Elevation = 10 * unit.Degree
	_, err := hop.LeastSpeed(&s, hop.InTurn)
	assert.ErrorIs(t, err, hop.ErrNone)
	s.Gate.Dist, s.Elevation = 12*unit.Inch, 1*unit.Degree
	_, err = hop.LeastSpeed(&s, hop.InTurn)
	assert.ErrorIs(t, err, hop.ErrFlat)
	s = hopping()
	s.Speed = 1 // m/s: however steep, it rises by at most 13 mm, and 19 mm are needed
	_, err = hop.LeastElevation(&s, hop.InTurn)
	assert.ErrorIs(t, err, hop.ErrNone)
}
