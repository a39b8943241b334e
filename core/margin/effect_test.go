package margin_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/margin"
	"pivotbench/core/motion"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// medium returns the shot of an empty link: right english with the back hand, the butt up
// 3°, and a bridge a little longer than the natural pivot length.
func medium() shot.Shot {
	sc := scenario.Default()
	return sc.Shot()
}

// level returns that shot with a level cue: nothing swerves, so the launch decides where
// the ball goes.
func level() shot.Shot {
	s := medium()
	s.Elevation = 0
	return s
}

func slope(t *testing.T, s shot.Shot, in margin.Input) float64 {
	t.Helper()
	v, err := margin.Slope(&s, in)
	require.NoError(t, err)
	return v
}

// changed returns a shot with one input changed by an amount in SI.
func changed(s shot.Shot, in margin.Input, by float64) shot.Shot {
	switch in {
	case margin.Bridge:
		s.Hands.Bridge += unit.Length(by)
	case margin.TipSide:
		s.Contact.Side += by / float64(s.Ball.Radius)
	case margin.TipStray: // the bridge hand stays, and the cue goes through it
		before, _ := s.Hands.Apply(s.Axis(), s.Ball.Radius)
		s.Contact.Side += by / float64(s.Ball.Radius)
		for range 20 { // heading δ of a line through the bridge at (X, −L−R), at a from the origin
			sin := (float64(s.Axis()) - float64(before.Bridge)*before.Heading.Cos()) / float64(s.Hands.Bridge+s.Ball.Radius)
			before.Heading = unit.Angle(math.Asin(sin))
		}
		after, _ := s.Hands.Apply(s.Axis(), s.Ball.Radius)
		s.AimOff += before.Heading - after.Heading
	case margin.TipHeight:
		s.Contact.Height += by / float64(s.Ball.Radius)
	case margin.Speed:
		s.Speed += unit.Speed(by)
	case margin.Elevation:
		s.Elevation += unit.Angle(by)
	case margin.Pivot:
		s.Cue.Pivot += unit.Length(by)
	}
	return s
}

// The reference is Richardson extrapolation (Phil. Trans. R. Soc. A 210 (1911) 307):
// differences of the readings at two larger steps, one half of the other.
func TestSlopeAgreesWithRichardson(t *testing.T) {
	draw := medium()
	draw.Contact, draw.Elevation, draw.AimOff = strike.Contact{Side: -0.25, Height: -0.2}, 8*unit.Degree, 0.01
	stroke := medium()
	stroke.ByStroke, stroke.Hands.Front = true, 0.3
	for name, s := range map[string]shot.Shot{"medium": medium(), "draw": draw, "stroke": stroke} {
		for _, in := range margin.Inputs {
			quotient := func(h float64) float64 {
				var x [2]float64
				for i, by := range []float64{-h, h} {
					var res shot.Result
					near := changed(s, in, by)
					shot.Play(&near, &res)
					require.NoError(t, res.Reading.Arrival.Err())
					x[i] = float64(res.Reading.Arrival.Value)
				}
				return (x[1] - x[0]) / (2 * h)
			}
			const h = 2e-4
			want := (4*quotient(h/2) - quotient(h)) / 3
			assert.InEpsilon(t, want, slope(t, s, in), 1e-5, "%s, input %v", name, in)
		}
	}
}

func TestInputs(t *testing.T) {
	assert.Equal(t, []margin.Input{margin.Bridge, margin.TipSide, margin.TipStray, margin.TipHeight, margin.Speed, margin.Elevation, margin.Pivot}, margin.Inputs)
}

// Common practice, no source, for right back-hand english: a longer bridge turns the cue
// less, and the ball goes further left. A cue of lower deflection sends it further right,
// a raised butt makes it swerve right, and a harder shot leaves less time for that. Left
// english mirrors all of it.
func TestSlopeSigns(t *testing.T) {
	for _, side := range []float64{0.4, -0.4} {
		s := medium()
		s.Contact.Side = side
		for in, sign := range map[margin.Input]float64{margin.Bridge: -1, margin.Pivot: 1, margin.Elevation: 1, margin.Speed: -1} {
			assert.Positive(t, sign*side*slope(t, s, in), "side %v, input %v", side, in)
		}
	}
	s := level()
	assert.InDelta(t, 0, slope(t, s, margin.Speed), 1e-8, "squirt does not depend on speed")
}

func TestSlopeReasons(t *testing.T) {
	s := medium()
	s.Speed = 0.1
	_, err := margin.Slope(&s, margin.Bridge)
	assert.ErrorIs(t, err, motion.ErrStops)
	s = medium()
	s.Contact.Side = 0.6
	_, err = margin.Slope(&s, margin.Bridge)
	assert.ErrorIs(t, err, strike.ErrMiscue)
	k, err := strike.MassRatio(s.Ball, s.Cue)
	require.NoError(t, err)
	s.Contact.Side = strike.MostOffset(k, s.Cue.Tip) - 1e-6
	_, err = margin.Slope(&s, margin.Bridge)
	assert.NoError(t, err)
	_, err = margin.Slope(&s, margin.TipSide)
	assert.ErrorIs(t, err, strike.ErrMiscue, "slightly further out it slips")
}

// With a level cue and no height, turning about the bridge launches the ball exactly at δ
// − α(ρ), where sin δ = ρ (R + r)/(L + R). So the turn of the cue does not matter, to
// first order, where
//
//	dδ/dρ = (R + r)/((L + R) cos δ) = α′(ρ)
//
// At centre ball this is the limit of the natural pivot length. A whole turn from centre
// to ρ cancels at the natural pivot length at ρ, but a small turn about ρ cancels at the
// longer L = (R + r) √(1/α′² + ρ²) − R. No other bridge cancels them.
func TestWhereTurningErrorsCancel(t *testing.T) {
	s := level()
	k, err := strike.MassRatio(s.Ball, s.Cue)
	require.NoError(t, err)
	// at returns how a tip error moves the ball, by the bridge and the offset.
	at := func(bridge unit.Length, side float64) float64 {
		s := s
		s.Hands.Bridge, s.Contact.Side = bridge, side
		return slope(t, s, margin.TipSide) / float64(s.Dist)
	}
	// whole returns how a turn from centre to an offset moves the ball.
	whole := func(bridge unit.Length, side float64) float64 {
		s := s
		s.Hands.Bridge, s.Contact.Side = bridge, side
		var res shot.Result
		shot.Play(&s, &res)
		require.NoError(t, res.Reading.Arrival.Err())
		return float64(res.Reading.Arrival.Value / s.Dist)
	}
	const hair = 0.1 * unit.Millimetre
	cancels := func(what string, bridge unit.Length, moves func(unit.Length) float64) {
		assert.InDelta(t, 0, moves(bridge), 1e-7, what)
		assert.Positive(t, moves(bridge-hair), "%s: a shorter bridge turns it too far", what)
		assert.Negative(t, moves(bridge+hair), "%s: a longer one not far enough", what)
	}

	centre := strike.NaturalPivot(0, k, s.Ball, s.Cue.Tip)
	cancels("small turn at centre ball", centre, func(l unit.Length) float64 { return at(l, 0) })
	reach := float64(s.Ball.Radius + s.Cue.Tip.Dome)
	for _, rho := range []float64{0.1, 0.25, 0.4, 0.5} {
		natural := strike.NaturalPivot(rho, k, s.Ball, s.Cue.Tip)
		cancels("whole turn", natural, func(l unit.Length) float64 { return whole(l, rho) })

		const h = 1e-4
		alpha := func(rho float64) float64 { return float64(strike.Deflection(rho, k)) }
		steep := (8*(alpha(rho+h)-alpha(rho-h)) - alpha(rho+2*h) + alpha(rho-2*h)) / (12 * h)
		small := unit.Length(reach*math.Hypot(1/steep, rho)) - s.Ball.Radius
		cancels("small turn at english", small, func(l unit.Length) float64 { return at(l, rho) })
		heading := math.Asin(rho * reach / float64(small+s.Ball.Radius))
		assert.InDelta(t, reach/(steep*math.Cos(heading)), float64(small+s.Ball.Radius), 1e-12, "the same, from the turn of the cue")

		assert.Greater(t, natural, centre)
		assert.Greater(t, small, natural)
		if rho >= 0.25 {
			assert.Positive(t, at(natural, rho), "where the whole turn cancels a small one does not")
			assert.Greater(t, math.Abs(at(natural, rho)), 1e-3)
			assert.Greater(t, math.Abs(whole(small, rho)), 1e-4)
		}
	}
}

// With a raised butt, swerve changes the bridge at which the errors cancel.
func TestSwerveMovesWhereTurningErrorsCancel(t *testing.T) {
	s := medium()
	k, err := strike.MassRatio(s.Ball, s.Cue)
	require.NoError(t, err)
	s.Hands.Bridge, s.Contact.Side = strike.NaturalPivot(0, k, s.Ball, s.Cue.Tip), 0
	assert.Greater(t, slope(t, s, margin.TipSide), 0.1)
}
