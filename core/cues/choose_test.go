package cues_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/cues"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// At the natural pivot length a level cue may be pivoted with the back hand
// alone; common practice, no source: off a bridge too short the ball goes to
// the side of the english, off one too long to the other.
func TestBackHandAlone(t *testing.T) {
	s := medium()
	s.Elevation = 0
	mid := cue(t, 12, 0.1)
	at := mid.Known.Pivot(s.Ball, mid.Gear.Tip, s.Contact.Side)
	for _, c := range []struct {
		bridge unit.Length
		side   float64
	}{{at.Median, 0}, {at.Median - 4*unit.Inch, 1}, {at.Median + 8*unit.Inch, -1}} {
		s.Hands.Bridge = c.bridge
		fit := cues.Choose(&s, []cues.Candidate{mid}, club, paces)[0]
		require.NoError(t, fit.Err)
		if c.side == 0 {
			assert.InDelta(t, 0, float64(fit.Off), 1e-9)
		}
		assert.Equal(t, c.side == 0, fit.All)
		assert.Equal(t, c.side == 0, len(fit.Alone) == len(paces))
		assert.GreaterOrEqual(t, c.side*float64(fit.Off), 0.0)
	}
}

// Soft strokes swerve more: with the butt up, a bridge that suits one speed
// does not suit all.
func TestBackHandAloneAtSomeSpeeds(t *testing.T) {
	s := medium()
	s.Elevation = 5 * unit.Degree
	mid := cue(t, 12, 0.1)
	with := mid.With(&s)
	var res shot.Result
	shot.Play(&with, &res)
	require.NoError(t, res.Reading.PivotEffective.Err())
	s.Hands.Bridge = res.Reading.PivotEffective.Value // right for 7 mph
	fit := cues.Choose(&s, []cues.Candidate{mid}, club, []unit.Speed{3 * unit.MilePerHour, 7 * unit.MilePerHour, 20 * unit.MilePerHour})[0]
	require.NoError(t, fit.Err)
	assert.Equal(t, []unit.Speed{7 * unit.MilePerHour}, fit.Alone)
	assert.False(t, fit.All)
	assert.Equal(t, 3*unit.MilePerHour, fit.Worst)
}

// The hands' shares on the bench make no difference to what the back hand
// alone would do.
func TestChooseIsForTheBackHandWhateverTheShares(t *testing.T) {
	s := medium()
	two := []cues.Candidate{cue(t, 9.5, 0.1), cue(t, 19, 0.1)}
	want := cues.Choose(&s, two, club, paces)
	s.Hands.Back, s.Hands.Front, s.AimOff, s.ByStroke = 0, 1, 0.01, true
	assert.Equal(t, want, cues.Choose(&s, two, club, paces))
	assert.NotEqual(t, want[0].Off, want[1].Off)
	for _, f := range want {
		assert.Contains(t, paces, f.Worst)
	}
}

// A tip that strays a little about the bridge is forgiven where turning and
// squirt cancel: aimed at ρ that is at the bridge (R + r)/(α′(ρ) cos δ) − R,
// the slope of α taken from its formula by differences.
func TestStrayIsForgivenWhereTurningAndSquirtCancel(t *testing.T) {
	s := medium()
	s.Elevation = 0
	c := cue(t, 12, 0.1)
	k, err := strike.MassRatio(s.Ball, c.Gear)
	require.NoError(t, err)
	const rho, h = 0.4, 1e-5
	slope := float64(strike.Deflection(rho+h, k)-strike.Deflection(rho-h, k)) / (2 * h)
	reach := float64(s.Ball.Radius + c.Gear.Tip.Dome)
	radius := float64(s.Ball.Radius)
	bridge := 0.3
	for range 50 { // δ follows from the bridge
		cos := math.Cos(math.Asin(rho * reach / (bridge + radius)))
		bridge = reach/(slope*cos) - radius
	}
	s.Hands.Bridge = unit.Length(bridge)
	forgiven := cues.Choose(&s, []cues.Candidate{c}, club, paces)[0]
	s.Hands.Bridge = unit.Length(bridge) - 4*unit.Inch
	short := cues.Choose(&s, []cues.Candidate{c}, club, paces)[0]
	assert.InDelta(t, 0, float64(forgiven.Stray), 1e-6)
	assert.Greater(t, short.Stray, 1*unit.Millimetre)
}

// A trade fact: the most spin before a miscue is the same for every cue,
// however little it deflects, and what it is follows from the friction of the
// tip alone, (5/2) sin(atan μ).
func TestMostSpinIsTheSameForAllCues(t *testing.T) {
	s := medium()
	fits := cues.Choose(&s, []cues.Candidate{cue(t, 7, 0.1), cue(t, 12, 0.1), cue(t, 40, 0.1)}, club, paces)
	for _, f := range fits {
		require.NoError(t, f.Err)
		assert.InDelta(t, 2.5*0.6/math.Sqrt(1+0.6*0.6), f.MostSpin, 1e-12)
		assert.Less(t, f.Spin, f.MostSpin)
		assert.False(t, f.Edge)
	}
	assert.Greater(t, fits[0].Offset, fits[2].Offset, "more end mass grips further out, for no more spin")
	assert.Less(t, fits[0].Spin, fits[2].Spin, "at one offset, less squirt leaves a little more spin to the speed")

	narrow := cue(t, 12, 0.1)
	narrow.Gear.Tip.Width = 10 * unit.Millimetre
	assert.True(t, cues.Choose(&s, []cues.Candidate{narrow}, club, paces)[0].Edge)
}

func TestChooseSaysWhyNot(t *testing.T) {
	s := medium()
	c := cue(t, 12, 0.1)
	slow := []unit.Speed{0.3 * unit.MilePerHour}
	got := cues.Choose(&s, []cues.Candidate{c}, club, slow)[0]
	assert.ErrorIs(t, got.Err, motion.ErrStops)
	assert.Equal(t, cues.Choose(&s, []cues.Candidate{c}, club, paces), cues.Choose(&s, []cues.Candidate{c}, club, append(slow, paces...)))
	assert.False(t, got.All)
	s.Contact.Side = 0.6
	assert.ErrorIs(t, cues.Choose(&s, []cues.Candidate{c}, club, paces)[0].Err, strike.ErrMiscue)
	s.Contact.Side = limitOf(t, &c)
	assert.Error(t, cues.Choose(&s, []cues.Candidate{c}, club, paces)[0].Err, "a hair further out it slips")
}

// limitOf is the last offset at which a cue grips.
func limitOf(t *testing.T, c *cues.Candidate) float64 {
	t.Helper()
	s := medium()
	k, err := strike.MassRatio(s.Ball, c.Gear)
	require.NoError(t, err)
	return strike.MostOffset(k, c.Gear.Tip) - 1e-9
}

// Momentum and energy of a centre hit: the cue goes on at V − (m/M) v, the two
// part at e times the speed they met at, and with e = 1 no energy is lost.
func TestEffortKeepsMomentumAndEnergy(t *testing.T) {
	s := medium()
	s.Contact.Side = 0
	for _, e := range []float64{0.6, 0.75, 1} {
		c := cue(t, 12, 0.1)
		c.Gear.Tip.Restitution = e
		got := cues.Efforts(&s, []cues.Candidate{c})[0]
		require.NoError(t, got.Err)
		m, M, v, V := float64(s.Ball.Mass), float64(c.Gear.Mass), float64(s.Speed), float64(got.Stroke)
		after := V - m*v/M
		assert.InDelta(t, e*V, v-after, 1e-12)
		assert.InDelta(t, m*v*v/(M*V*V), got.Share, 1e-12)
		if e == 1 {
			assert.InDelta(t, M*V*V, m*v*v+M*after*after, 1e-12)
		}
		assert.Zero(t, got.More)
	}
}

// With sidespin the ball takes more of the stroke's energy along as spin, and
// never more than there is.
func TestEffortWithSpin(t *testing.T) {
	s := medium()
	light, heavy := cue(t, 12, 0.1), cue(t, 12, 0.1)
	light.Gear.Mass, heavy.Gear.Mass = 480*unit.Gram, 600*unit.Gram
	hard := cue(t, 12, 0.1)
	hard.Gear.Tip.Restitution = 0.85
	got := cues.Efforts(&s, []cues.Candidate{light, heavy, hard})
	for _, e := range got {
		require.NoError(t, e.Err)
		assert.Positive(t, e.Share)
		assert.Less(t, e.Share, 1.0)
	}
	assert.Negative(t, got[1].More, "a heavier cue needs less speed")
	assert.Negative(t, got[2].More, "and so does a livelier tip")
	assert.InDelta(t, float64(got[1].Stroke/got[0].Stroke)-1, got[1].More, 1e-12)

	// Given as a stroke's, the speed is what the first cue makes of it.
	s.ByStroke, s.Speed = true, got[0].Stroke
	again := cues.Efforts(&s, []cues.Candidate{light, heavy})
	assert.InDelta(t, float64(got[0].Stroke), float64(again[0].Stroke), 1e-12)
	assert.InDelta(t, float64(got[1].Stroke), float64(again[1].Stroke), 1e-12)

	// One that can't play the shot is passed over.
	blunt := light
	blunt.Gear.Tip.Width = 8 * unit.Millimetre
	passed := cues.Efforts(&s, []cues.Candidate{blunt, light, heavy})
	assert.ErrorIs(t, passed[0].Err, strike.ErrOffTip)
	assert.Equal(t, again, passed[1:])
}

// With a tip that gives back all, none of the stroke's energy is lost: the ball has
// it, as motion and as spin, or the cue keeps it, or the cue's end has it, which is
// kicked to the side as hard as the ball is.
func TestEffortLosesNothingOffALivelyTip(t *testing.T) {
	for _, side := range []float64{0.1, 0.3, 0.5} {
		s := medium()
		s.Contact.Side = side
		c := cue(t, 12, 0.1)
		c.Gear.Tip.Restitution = 1
		got := cues.Efforts(&s, []cues.Candidate{c})[0]
		require.NoError(t, got.Err)
		sh := c.With(&s)
		hit, err := strike.Prepare(sh.Ball, sh.Cue, sh.Contact)
		require.NoError(t, err)
		line := strike.Line{}
		push := hit.At(line, got.Stroke).Vel.Mul(float64(sh.Ball.Mass)) // the impulse
		along := push.Dot(line.Direction())
		across := push.Sub(line.Direction().Mul(along)).Norm()
		M, V := float64(c.Gear.Mass), float64(got.Stroke)
		kept := V - along/M
		whole := M * V * V / 2
		assert.InDelta(t, whole, got.Share*whole+M*kept*kept/2+across*across/float64(2*hit.EndMass()), 1e-12*whole, "%v", side)
	}
}
