package hop_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/contact"
	"pivotbench/core/gear"
	"pivotbench/core/hop"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

const hand = 5 * unit.MetrePerSecond

// like is the playing cue with another mass and tip.
func like(mass unit.Mass, restitution float64) gear.Cue {
	c := hopping().Cue
	c.Mass, c.Tip.Restitution = mass, restitution
	return c
}

func rise(c gear.Cue, v unit.Speed) float64 {
	s := hopping()
	return float64(hop.With(&s, inTurn, c, v).Rise.To)
}

// Common practice, no source: a harder tip gives a higher hop. v/V =
// (1+e)/(1+m/M) at the centre, and the rise goes with its square.
func TestAHarderTipHopsHigher(t *testing.T) {
	soft, hard := rise(like(0.54, 0.75), hand), rise(like(0.54, 0.85), hand)
	assert.InEpsilon(t, math.Pow(1.85/1.75, 2), hard/soft, 1e-12)
}

// Common practice, no source: a light cue with a hard tip hops higher than a
// playing cue. For the same hand speed the formula sets a limit: a lighter cue
// alone gives less, and the tip makes up for it down to Lightest. For the same
// work a lighter cue gives more, all the way down to the ball's own mass.
func TestALighterCue(t *testing.T) {
	s := hopping()
	playing := like(0.54, 0.75)
	assert.Less(t, rise(like(0.4, 0.75), hand), rise(playing, hand))

	limit := hop.Lightest(s.Ball, playing, 0.85)
	assert.Greater(t, limit, 0.4*unit.Kilogram)
	assert.Less(t, limit, playing.Mass)
	assert.InEpsilon(t, rise(playing, hand), rise(like(limit, 0.85), hand), 1e-12)
	assert.Greater(t, rise(like(limit+0.02, 0.85), hand), rise(playing, hand), "lighter and harder, and higher")
	assert.Less(t, rise(like(limit-0.02, 0.85), hand), rise(playing, hand), "too light")
	assert.InEpsilon(t, float64(playing.Mass), float64(hop.Lightest(s.Ball, playing, 0.75)), 1e-12, "the same tip: the same cue")
	assert.True(t, math.IsInf(float64(hop.Lightest(gear.Ball{Mass: 0.1}, like(0.9, 0.98), 0.3)), 1))

	last := 0.0
	for m := 0.9; m >= 0.17; m -= 0.05 {
		work := rise(like(unit.Mass(m), 0.75), hop.SameWork(hand, 0.54, unit.Mass(m)))
		assert.Greater(t, work, last, "%v kg", m)
		last = work
	}
	own := rise(like(s.Ball.Mass, 0.75), hop.SameWork(hand, 0.54, s.Ball.Mass))
	assert.Greater(t, own, rise(like(s.Ball.Mass*1.1, 0.75), hop.SameWork(hand, 0.54, s.Ball.Mass*1.1)))
	assert.Greater(t, own, rise(like(s.Ball.Mass*0.9, 0.75), hop.SameWork(hand, 0.54, s.Ball.Mass*0.9)))
}

// A heavier end squirts more and, at centre, hops the same.
func TestAHeavierEnd(t *testing.T) {
	s := hopping()
	heavy := s.Cue
	heavy.Pivot = 8 * unit.Inch
	assert.InEpsilon(t, rise(s.Cue, hand), rise(heavy, hand), 1e-12)
	s.Contact.Side = 0.3
	assert.Greater(t, hop.With(&s, inTurn, heavy, hand).Squirt, hop.With(&s, inTurn, s.Cue, hand).Squirt)
}

func TestWith(t *testing.T) {
	s := hopping()
	s.ByStroke, s.Speed = true, hand
	try := hop.With(&s, inTurn, s.Cue, hand)
	require.NoError(t, try.Err)
	f := hop.Flights(send(s), 0)[0]
	assert.Equal(t, gear.Range[unit.Length]{From: f.Rise(), To: f.Rise()}, try.Rise)
	assert.Equal(t, gear.Range[unit.Length]{From: f.Reach(), To: f.Reach()}, try.Reach)
	assert.InEpsilon(t, 5*1.75/(1+0.17/0.54), float64(try.BallSpeed), 1e-12)
	pass, err := contact.Pass(send(s), s.Gate, radius)
	require.NoError(t, err)
	assert.Equal(t, gear.Range[unit.Length]{From: min(pass.Left, pass.Right), To: min(pass.Left, pass.Right)}, try.Room)

	s.Elevation = 0
	assert.Zero(t, hop.With(&s, inTurn, s.Cue, hand).Rise)
	s.Gate.Dist = 0
	assert.ErrorIs(t, hop.With(&s, inTurn, s.Cue, hand).Gate, contact.ErrNoGate)
	s.Contact.Side = 0.6
	assert.ErrorIs(t, hop.With(&s, inTurn, s.Cue, hand).Err, strike.ErrMiscue)
}
