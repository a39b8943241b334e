package hop_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/contact"
	"pivotbench/core/gear"
	"pivotbench/core/hop"
	"pivotbench/core/stat"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

const hand = 5 * unit.MetrePerSecond

// like returns the playing cue with another mass and tip.
func like(mass unit.Mass, restitution float64) gear.Cue {
	c := hopping().Cue
	c.Mass, c.Tip.Restitution = mass, restitution
	return c
}

func rise(c gear.Cue, v unit.Speed) float64 {
	s := hopping()
	return float64(hop.With(&s, inTurn, c, v).Rise.To)
}

// With the impacts one after the other, a harder tip gives a higher hop: v/V =
// (1+e)/(1+m/M) at the centre, and the rise is proportional to its square.
func TestAHarderTipGivesMore(t *testing.T) {
	soft, hard := rise(like(0.54, 0.75), hand), rise(like(0.54, 0.85), hand)
	assert.InEpsilon(t, math.Pow(1.85/1.75, 2), hard/soft, 1e-12)
}

// With the impacts one after the other, a lighter cue gives less at the same speed of the
// hand, and more for the same work down to the ball's own mass, since v² is proportional
// to M/(M + m)².
func TestALighterCueInTurn(t *testing.T) {
	assert.Less(t, rise(like(0.4, 0.75), hand), rise(like(0.54, 0.75), hand))
	last := 0.0
	for m := 0.9; m >= 0.17; m -= 0.05 {
		work := rise(like(unit.Mass(m), 0.75), hop.SameWork(hand, 0.54, unit.Mass(m)))
		assert.Greater(t, work, last, "%v kg", m)
		last = work
	}
	m := float64(hopping().Ball.Mass)
	own := rise(like(unit.Mass(m), 0.75), hop.SameWork(hand, 0.54, unit.Mass(m)))
	for _, other := range []float64{0.9, 1.1, 3} {
		got := rise(like(unit.Mass(other*m), 0.75), hop.SameWork(hand, 0.54, unit.Mass(other*m)))
		assert.InEpsilon(t, 4*other/(1+other)/(1+other), got/own, 1e-12)
	}
}

// With the impacts one after the other, a heavier end squirts more but hops the same at
// centre ball.
func TestAHeavierEndInTurn(t *testing.T) {
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
	assert.Equal(t, stat.Interval[unit.Length]{From: f.Rise(), To: f.Rise()}, try.Rise)
	assert.Equal(t, stat.Interval[unit.Length]{From: f.Reach(), To: f.Reach()}, try.Reach)
	assert.InEpsilon(t, 5*1.75/(1+0.17/0.54), float64(try.BallSpeed), 1e-12)
	pass, err := contact.Pass(send(s), s.Gate, radius)
	require.NoError(t, err)
	assert.Equal(t, stat.Interval[unit.Length]{From: min(pass.Left, pass.Right), To: min(pass.Left, pass.Right)}, try.Room)

	s.Elevation = 0
	assert.Zero(t, hop.With(&s, inTurn, s.Cue, hand).Rise)
	s.Gate.Dist = 0
	assert.ErrorIs(t, hop.With(&s, inTurn, s.Cue, hand).Gate, contact.ErrNoGate)
	s.Contact.Side = 0.6
	assert.ErrorIs(t, hop.With(&s, inTurn, s.Cue, hand).Err, strike.ErrMiscue)
}
