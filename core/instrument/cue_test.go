package instrument_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"pivotbench/core/gear"
	"pivotbench/core/instrument"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// underside is the height of a cone's lower side, square below the place at
// along from the tip on its axis.
func underside(theta, along, thick float64) unit.Length {
	return unit.Length(0.03 + along*math.Sin(theta) - thick/2*math.Cos(theta))
}

func TestHeightsInvertTheCone(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 9))
	for range 1000 {
		theta, apart := between(r, 0, 1.4), between(r, 0.05, 1.3)
		thin, thick := between(r, 0.01, 0.02), between(r, 0.02, 0.035)
		got, err := instrument.Heights{
			Tip: underside(theta, 0.1, thin), Butt: underside(theta, 0.1+apart, thick),
			Apart: unit.Length(apart), TipThick: unit.Length(thin), ButtThick: unit.Length(thick),
		}.Elevation()
		require.NoError(t, err)
		assert.InDelta(t, theta, float64(got), 1e-9)
	}
}

// A worked right triangle: 3, 4, 5.
func TestHeightsOfATriangle(t *testing.T) {
	got, err := instrument.Heights{Tip: 0.1, Butt: 0.4, Apart: 0.5}.Elevation()
	require.NoError(t, err)
	assert.InDelta(t, math.Atan2(3, 4), float64(got), 1e-12)
}

func TestHeightsRefuse(t *testing.T) {
	for want, h := range map[error]instrument.Heights{
		instrument.ErrApart:    {Tip: 0.1, Butt: 0.2, Apart: 0.01},
		instrument.ErrSteep:    {Tip: 0.1, Butt: 0.9, Apart: 0.5},
		instrument.ErrButtDown: {Tip: 0.2, Butt: 0.1, Apart: 0.5},
	} {
		_, err := h.Elevation()
		assert.ErrorIs(t, err, want)
	}
	level, err := instrument.Heights{Tip: 0.101, Butt: 0.1, Apart: 1}.Estimate()
	require.NoError(t, err)
	assert.Zero(t, level.Median)
	assert.Zero(t, level.From)
	assert.Positive(t, level.To)
}

// seen is the sensor's angles for which up is a direction of the phone's own
// frame: beta and gamma of the W3C's Device Orientation specification.
func seen(up vec.V) instrument.Tilt {
	return instrument.Tilt{Beta: unit.Angle(math.Asin(up.Y)), Gamma: unit.Angle(math.Atan2(-up.X, up.Z))}
}

// The specification's own words: with the phone on edge and its top up, beta
// is 90°; flat, both are 0; turned a quarter about its long edge, gamma is 90°.
func TestLevelOfThePlainCases(t *testing.T) {
	flat := []instrument.Tilt{{}}
	for _, c := range []struct {
		tilt instrument.Tilt
		want float64
	}{
		{instrument.Tilt{}, 0},
		{instrument.Tilt{Beta: 10 * unit.Degree}, 10},
		{instrument.Tilt{Beta: -10 * unit.Degree}, 10}, // the other way round
		{instrument.Tilt{Gamma: 30 * unit.Degree}, 0},  // leaning over
		{instrument.Tilt{Beta: 85 * unit.Degree}, 85},
	} {
		e, err := instrument.Level(flat, []instrument.Tilt{c.tilt})
		require.NoError(t, err)
		assert.InDelta(t, c.want, float64(e.Median/unit.Degree), 1e-9, "%+v", c.tilt)
	}
}

// A phone whose sensor sits askew, on a camera's bump, leaning over to any
// side as it lies along the cue.
func TestLevelTakesTheZeroOff(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 13))
	for range 1000 {
		theta, lean := between(r, 0, 1.2), between(r, -0.8, 0.8)
		// The sensor's frame against the phone's back: a small turn about x,
		// then about y. Up is seen through it.
		a, b := between(r, -0.1, 0.1), between(r, -0.1, 0.1)
		askew := func(v vec.V) vec.V {
			v = vec.V{X: v.X, Y: v.Y*math.Cos(a) - v.Z*math.Sin(a), Z: v.Y*math.Sin(a) + v.Z*math.Cos(a)}
			return vec.V{X: v.X*math.Cos(b) + v.Z*math.Sin(b), Y: v.Y, Z: v.Z*math.Cos(b) - v.X*math.Sin(b)}
		}
		// Without it, the back's long edge rises by theta and the back leans.
		up := vec.V{X: math.Cos(theta) * math.Sin(lean), Y: math.Sin(theta), Z: math.Cos(theta) * math.Cos(lean)}
		edge := askew(vec.V{Y: 1})
		e, err := instrument.Level([]instrument.Tilt{seen(askew(vec.V{Z: 1}))}, []instrument.Tilt{seen(askew(up))})
		require.NoError(t, err)
		// The sensor's long edge, which is all it knows of the phone's, is off
		// by a turn in the plane of the back, of second order in the skew.
		flat := askew(vec.V{Z: 1})
		known := vec.V{Y: 1}.Sub(flat.Mul(flat.Y))
		twist := math.Acos(min(1, known.Dot(edge)/known.Norm()))
		assert.LessOrEqual(t, twist, 0.011)
		assert.InDelta(t, theta, float64(e.Median), 1.5*twist+1e-9)
	}
}

func TestLevelRefuses(t *testing.T) {
	flat := []instrument.Tilt{{}}
	_, err := instrument.Level(nil, flat)
	assert.ErrorIs(t, err, instrument.ErrNone)
	_, err = instrument.Level(flat, nil)
	assert.ErrorIs(t, err, instrument.ErrNone)
	_, err = instrument.Level([]instrument.Tilt{{Beta: 60 * unit.Degree}}, flat)
	assert.ErrorIs(t, err, instrument.ErrZero)
}

// Forward: the point of the ball that lies rho radii off the middle as the cue
// sees it, and what each ruler reads of it.
func TestOffsetInvertsTheBall(t *testing.T) {
	r, R, dome := rand.New(rand.NewPCG(21, 22)), float64(ball.Radius), float64(tip.Dome)
	for range 1000 {
		rho := between(r, 0, 0.6)
		middle, mark := vec.V{Z: R}, vec.V{X: rho * R, Z: R * math.Sqrt(1-rho*rho)}
		for way, x := range map[instrument.Way]float64{
			instrument.Across:   mark.X,
			instrument.Straight: mark.Sub(middle).Norm(),
			instrument.Over:     R * math.Atan2(middle.Cross(mark).Norm(), middle.Dot(mark)),
			instrument.Axis:     rho * (R + dome),
			instrument.Edge:     rho*(R+dome) + float64(tip.Width)/2,
		} {
			got, err := instrument.Offset(way, unit.Length(x), ball, tip)
			require.NoError(t, err)
			assert.InDelta(t, rho, got, 1e-9)
		}
		// The cue's model of the same contact.
		assert.InDelta(t, rho*(R+dome), float64(strike.AxisDistance(rho, ball, tip)), 1e-12)
	}
}

func TestOffsetRefuses(t *testing.T) {
	for _, c := range []struct {
		way  instrument.Way
		mm   float64
		want error
	}{
		{instrument.Across, -1, instrument.ErrLength},
		{instrument.Across, 30, strike.ErrOffBall},
		{instrument.Straight, 45, strike.ErrOffBall},
		{instrument.Over, 50, strike.ErrOffBall},
		{instrument.Edge, 3, instrument.ErrInside},
		{instrument.Across, 20, strike.ErrOffTip},
	} {
		_, err := instrument.OffsetEstimate(c.way, unit.Length(c.mm)*unit.Millimetre, ball, tip)
		assert.ErrorIs(t, err, c.want)
	}
	e, err := instrument.OffsetEstimate(instrument.Across, 0, ball, tip)
	require.NoError(t, err)
	assert.Zero(t, e.From)
	edge, err := instrument.OffsetEstimate(instrument.Across, 17.4*unit.Millimetre, ball, tip)
	require.NoError(t, err)
	assert.InDelta(t, 6.5/10.6, edge.To, 1e-12) // where this tip ends
}

// A coin 21.21 mm across laid on a tip 13 mm wide that it fits: the rise of its
// edge over that width is the rise of the dome. Euclid III.35: the chord's
// halves against the parts of the diameter, (w/2)² = s (2r − s).
func TestDome(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	for range 500 {
		radius, width := between(r, 6, 30), 0.0
		width = between(r, 8, min(16, 2*radius))
		rise := radius - math.Sqrt(radius*radius-width*width/4)
		assert.InDelta(t, width*width/4, rise*(2*radius-rise), 1e-9)
		got, err := instrument.Dome{Width: unit.Length(width) * unit.Millimetre, Rise: unit.Length(rise) * unit.Millimetre}.Radius()
		require.NoError(t, err)
		assert.InEpsilon(t, radius, float64(got/unit.Millimetre), 1e-9)
	}
	half, err := instrument.Dome{Width: 12 * unit.Millimetre, Rise: 6 * unit.Millimetre}.Radius()
	require.NoError(t, err, "half a ball is the highest dome")
	assert.InEpsilon(t, 6, float64(half/unit.Millimetre), 1e-12)
	for want, d := range map[error]instrument.Dome{
		instrument.ErrWidth: {Width: 30 * unit.Millimetre, Rise: 1},
		instrument.ErrFlat:  {Width: 13 * unit.Millimetre},
		instrument.ErrPeak:  {Width: 13 * unit.Millimetre, Rise: 7 * unit.Millimetre},
	} {
		_, err := d.Estimate()
		assert.ErrorIs(t, err, want)
	}
}

// World Pool-Billiard Association, equipment specifications: 2.25 in ± 0.005,
// 5.5 to 6 oz.
func TestBallAgainstTheStandard(t *testing.T) {
	named, ok := gear.Find(gear.BallLimits, "pool")
	require.True(t, ok)
	limits := named.Is
	fit := func(x unit.Length, round bool) instrument.Fit {
		e, err := instrument.Diameter(x, round)
		require.NoError(t, err)
		return instrument.FitOf(e, limits.Diameter)
	}
	assert.Equal(t, instrument.Within, fit(2.25*unit.Inch, false))
	assert.Equal(t, instrument.Unsure, fit(2.2545*unit.Inch, false))
	assert.Equal(t, instrument.Outside, fit(2.23*unit.Inch, false))
	assert.Equal(t, instrument.Outside, fit(2.28*unit.Inch, false))
	assert.Equal(t, instrument.Unsure, fit(math.Pi*2.25*unit.Inch, true)) // a tape round it is too coarse to pass a ball
	assert.Equal(t, instrument.Outside, fit(math.Pi*2.1*unit.Inch, true))

	mass, err := instrument.Weighed(163 * unit.Gram)
	require.NoError(t, err)
	assert.Equal(t, instrument.Within, instrument.FitOf(mass, limits.Mass))
	heavy, err := instrument.Weighed(180 * unit.Gram)
	require.NoError(t, err)
	assert.Equal(t, instrument.Outside, instrument.FitOf(heavy, limits.Mass))

	_, err = instrument.Diameter(2.25*unit.Inch, true)
	assert.ErrorIs(t, err, instrument.ErrBall)
	_, err = instrument.Weighed(2)
	assert.ErrorIs(t, err, instrument.ErrMass)
}

// propagated is the first-order error that independent errors of some readings
// make of what is worked out from them: each derivative by central differences.
func propagated(f func(x []float64) float64, at, sd []float64) float64 {
	sum := 0.0
	for i := range at {
		h := 1e-4 * sd[i]
		x := slices.Clone(at)
		x[i] = at[i] + h
		more := f(x)
		x[i] = at[i] - h
		slope := (more - f(x)) / (2 * h)
		sum += slope * slope * sd[i] * sd[i]
	}
	return math.Sqrt(sum)
}

// One reading's 90 % interval is Student's with the 20 readings that a stated
// scatter counts for, by gonum/stat/distuv, times the readings' errors carried
// through to the answer, on the scale on which these are Normal.
func TestIntervalsAreTheReadingsErrors(t *testing.T) {
	reach := distuv.StudentsT{Sigma: 1, Nu: 20}.Quantile(0.95)
	r := rand.New(rand.NewPCG(51, 52))
	checked := 0
	for range 300 {
		// A dome from shallow to nearly a half ball; its curvature is the scale.
		at := []float64{between(r, 8, 16), 0}
		at[1] = between(r, 0.1, 0.48) * at[0]
		dome := func(x []float64) instrument.Dome {
			return instrument.Dome{Width: unit.Length(x[0]) * unit.Millimetre, Rise: unit.Length(x[1]) * unit.Millimetre}
		}
		curvature := func(x []float64) float64 {
			radius, err := dome(x).Radius()
			require.NoError(t, err)
			return 1 / float64(radius)
		}
		round, err := dome(at).Estimate()
		require.NoError(t, err)
		half := reach * propagated(curvature, at, []float64{0.1, 0.1})
		assert.InEpsilon(t, half, (1/float64(round.From)-1/float64(round.To))/2, 1e-5)
		assert.InEpsilon(t, curvature(at), (1/float64(round.From)+1/float64(round.To))/2, 1e-9)

		// A cue's heights: the sine of its underside's angle is the scale.
		theta, apart := between(r, 0.1, 1.2), between(r, 0.2, 1.3)
		thin, thick := between(r, 0.01, 0.02), between(r, 0.02, 0.035)
		at = []float64{float64(underside(theta, 0.1, thin)), float64(underside(theta, 0.1+apart, thick)), apart}
		heights := func(x []float64) instrument.Heights {
			return instrument.Heights{Tip: unit.Length(x[0]), Butt: unit.Length(x[1]), Apart: unit.Length(x[2]), TipThick: unit.Length(thin), ButtThick: unit.Length(thick)}
		}
		taper := math.Atan((thick - thin) / 2 / apart)
		elevation := func(x []float64) float64 {
			angle, err := heights(x).Elevation()
			require.NoError(t, err)
			return float64(angle)
		}
		half = reach * propagated(elevation, at, []float64{offHeight, offHeight, offTape}) * math.Cos(theta-taper)
		raised, err := heights(at).Estimate()
		require.NoError(t, err)
		if math.Sin(theta-taper)+half < 0.999 { // not upright
			checked++
			sine := func(angle unit.Angle) float64 { return math.Sin(float64(angle) - taper) }
			assert.InEpsilon(t, half, (sine(raised.To)-sine(raised.From))/2, 1e-5)
		}

		// A ball that rolls to rest: one over the root of the resistance.
		at = []float64{between(r, 0.5, 4), 0}
		at[1] = math.Sqrt(2 * at[0] / (between(r, 0.006, 0.02) * 9.80665))
		rest := func(x []float64) instrument.Rest {
			return instrument.Rest{Length: unit.Length(x[0]), Time: unit.Span(x[1])}
		}
		ease := func(x []float64) float64 {
			resistance, err := rest(x).Resistance()
			require.NoError(t, err)
			return 1 / math.Sqrt(resistance)
		}
		half = reach * propagated(ease, at, []float64{offTape, math.Hypot(float64(instrument.Thumb), settles)})
		stopped, err := instrument.RestAverage([]instrument.Rest{rest(at)})
		require.NoError(t, err)
		assert.InEpsilon(t, half, (1/math.Sqrt(stopped.From)-1/math.Sqrt(stopped.To))/2, 1e-5)

		// A phone along the cue: the angle itself.
		along, err := instrument.Level([]instrument.Tilt{{}}, []instrument.Tilt{{Beta: unit.Angle(between(r, 5, 80)) * unit.Degree}})
		require.NoError(t, err)
		assert.InEpsilon(t, reach*offPhone, float64((along.To-along.From)/unit.Degree)/2, 1e-9)
	}
	assert.Greater(t, checked, 200)
}

// A ruler's reading moved to both ends of its own interval.
func TestOffsetsIntervalIsTheRulers(t *testing.T) {
	reach := distuv.StudentsT{Sigma: 1, Nu: 20}.Quantile(0.95)
	for way, sd := range map[instrument.Way]float64{
		instrument.Across: offRuler, instrument.Straight: offRuler, instrument.Over: offRuler,
		instrument.Axis: math.Hypot(offRuler, offAimed), instrument.Edge: math.Hypot(offRuler, offAimed),
	} {
		x := 12 * unit.Millimetre
		e, err := instrument.OffsetEstimate(way, x, ball, tip)
		require.NoError(t, err)
		for off, want := range map[float64]float64{-reach: e.From, 0: e.Median, reach: e.To} {
			rho, err := instrument.Offset(way, x+unit.Length(off*sd), ball, tip)
			require.NoError(t, err)
			assert.InDelta(t, rho, want, 1e-9, "way %v, %v", way, off)
		}
	}
}
