package cues_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"pivotbench/core/cues"
	"pivotbench/core/gear"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// medium is the shot of an empty link: right english off a 12 in bridge.
func medium() shot.Shot {
	sc := scenario.Default()
	return sc.Shot()
}

// cue is one of the usual mass and tip with a pivot length measured at half a
// radius, its interval a share of it to either side.
func cue(t *testing.T, inches, share float64) cues.Candidate {
	t.Helper()
	s := medium()
	g := s.Cue
	g.Pivot = unit.Length(inches) * unit.Inch
	known, err := cues.Measured(s.Ball, g, g.Pivot/unit.Length(1+share), g.Pivot*unit.Length(1+share))
	require.NoError(t, err)
	return cues.Candidate{Gear: g, Known: known}
}

func TestMeasuredGivesBackWhatWasMeasured(t *testing.T) {
	s := medium()
	for _, inches := range []float64{6, 9.5, 13, 19, 40} {
		c := cue(t, inches, 0.08)
		got := c.Known.Pivot(s.Ball, c.Gear.Tip, 0.5)
		assert.InDelta(t, inches, float64(got.Median/unit.Inch), 1e-9)
		// The two ends are as far away in the logarithm of the end mass, and
		// nearly so in that of the pivot length.
		assert.InEpsilon(t, inches/1.08, float64(got.From/unit.Inch), 0.005)
		assert.InEpsilon(t, inches*1.08, float64(got.To/unit.Inch), 0.005)
		mass := c.Known.Estimate()
		k, err := strike.MassRatio(s.Ball, c.Gear)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(s.Ball.Mass)/k, float64(mass.Median), 1e-12)
		assert.InEpsilon(t, float64(mass.Median*mass.Median), float64(mass.From*mass.To), 1e-12)
		assert.Less(t, mass.From, mass.To)
	}
}

// The end mass belongs to the cue: measured at another offset, and on another
// ball, the same cue shows another pivot length and the same estimate.
func TestMeasurementsAtOtherOffsetsAndBallsAgree(t *testing.T) {
	s := medium()
	c := cue(t, 12, 0.1)
	snooker, ok := gear.Find(gear.Balls, "snooker")
	require.True(t, ok)
	for _, ball := range []gear.Ball{s.Ball, snooker.Is} {
		for _, rho := range []float64{0.2, 0.35, 0.5} {
			there := c.Known.Pivot(ball, c.Gear.Tip, rho)
			g := c.Gear
			g.Pivot, g.PivotSpin = there.Median, rho
			again, err := cues.Measured(ball, g, there.From, there.To)
			require.NoError(t, err)
			assert.InDelta(t, c.Known.Log, again.Log, 1e-9)
			assert.InDelta(t, c.Known.Spread, again.Spread, 1e-9)
		}
	}
}

func TestMeasuredWithoutWholeInterval(t *testing.T) {
	s := medium()
	bare, err := cues.Measured(s.Ball, s.Cue, 0, 0)
	require.NoError(t, err)
	assumed, err := cues.Measured(s.Ball, s.Cue, s.Cue.Pivot/(1+cues.Assumed), s.Cue.Pivot*(1+cues.Assumed))
	require.NoError(t, err)
	assert.Equal(t, assumed, bare)

	// Marks may leave no squirt at all within the interval.
	open, err := cues.Measured(s.Ball, s.Cue, 10*unit.Inch, unit.Length(math.Inf(1)))
	require.NoError(t, err)
	assert.Greater(t, open.Spread, bare.Spread)
	assert.False(t, math.IsInf(open.Spread, 1))

	exact, err := cues.Measured(s.Ball, s.Cue, s.Cue.Pivot, s.Cue.Pivot)
	require.NoError(t, err)
	assert.Positive(t, exact.Spread)
}

func TestMeasuredRefuses(t *testing.T) {
	s := medium()
	for name, c := range map[string]struct {
		pivot, from, to unit.Length
		want            error
	}{
		"interval beside it":  {12, 13, 14, cues.ErrInterval},
		"interval backwards":  {12, 14, 10, cues.ErrInterval},
		"interval unknown":    {12, unit.Length(math.NaN()), 14, cues.ErrInterval},
		"interval of all":     {12, 0.5, unit.Length(math.Inf(1)), cues.ErrInterval},
		"no cue":              {1, 0, 0, strike.ErrPivot},
		"pivot not a number":  {unit.Length(math.NaN()), 0, 0, cues.ErrInterval},
		"pivot and no end":    {0, 0, 0, strike.ErrPivot},
		"pivot without limit": {unit.Length(math.Inf(1)), 0, 0, strike.ErrPivot},
	} {
		g := s.Cue
		g.Pivot = c.pivot * unit.Inch
		_, err := cues.Measured(s.Ball, g, c.from*unit.Inch, c.to*unit.Inch)
		assert.ErrorIs(t, err, c.want, name)
	}
}

// Common practice, no source: a plain maple shaft, 9 to 10 in, squirts about
// twice as much as the lowest, 19 in. Exactly: with sin α = ρ(R + r)/(L + R) at
// the reference offset, the formula of Shepard 2001 gives the end mass, and so
// α at any other.
func TestMapleSquirtsTwiceAsMuch(t *testing.T) {
	s := medium()
	maple, low := cue(t, 9.5, 0.05), cue(t, 19, 0.05)
	const radius, dome = 0.028575, 0.0106
	alpha := func(inches, rho float64) float64 {
		reference := math.Asin(0.5 * (radius + dome) / (inches*0.0254 + radius))
		c2 := 1 - 0.25
		k := 2.5*0.5*math.Sqrt(c2)/math.Tan(reference) - 1 - 2.5*c2
		return math.Atan(2.5 * rho * math.Sqrt(1-rho*rho) / (1 + k + 2.5*(1-rho*rho)))
	}
	for _, rho := range []float64{0.1, 0.25, 0.4, 0.5} {
		a, b := maple.Known.Squirt(s.Ball, rho), low.Known.Squirt(s.Ball, rho)
		assert.InDelta(t, alpha(9.5, rho), float64(a.Median), 1e-12)
		assert.InDelta(t, alpha(19, rho), float64(b.Median), 1e-12)
		assert.InDelta(t, 2, float64(a.Median/b.Median), 0.2)
		assert.Less(t, a.From, a.Median)
		assert.Less(t, a.Median, a.To)
	}
	assert.Zero(t, maple.Known.Squirt(s.Ball, 0).To, "a centre hit does not squirt")
}

// Against the Normal distribution of a statistics library, and against draws.
func TestLess(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	for _, pair := range [][2]cues.EndMass{
		{{Log: -5, Spread: 0.1}, {Log: -4.9, Spread: 0.2}},
		{{Log: -5, Spread: 0.05}, {Log: -5.3, Spread: 0.1}},
		{{Log: -5, Spread: 0.3}, {Log: -5, Spread: 0.01}},
	} {
		a, b := pair[0], pair[1]
		got := cues.Less(a, b)
		apart := distuv.Normal{Mu: a.Log - b.Log, Sigma: math.Hypot(a.Spread, b.Spread)}
		assert.InDelta(t, apart.CDF(0), got, 1e-14)
		assert.InDelta(t, 1, got+cues.Less(b, a), 1e-14)
		const n = 40000
		less := 0
		for range n {
			if a.Log+a.Spread*rng.NormFloat64() < b.Log+b.Spread*rng.NormFloat64() {
				less++
			}
		}
		assert.InDelta(t, float64(less)/n, got, 0.01)
	}
}

// The interval holds nine of ten, by the quantiles of a statistics library.
func TestBandHoldsNineOfTen(t *testing.T) {
	c := cue(t, 12, 0.1)
	mass := c.Known.Estimate()
	of := distuv.LogNormal{Mu: c.Known.Log, Sigma: c.Known.Spread}
	assert.InEpsilon(t, of.Quantile(0.05), float64(mass.From), 1e-9)
	assert.InEpsilon(t, of.Quantile(0.5), float64(mass.Median), 1e-9)
	assert.InEpsilon(t, of.Quantile(0.95), float64(mass.To), 1e-9)
}

// Against the weighted mean of a statistics library, with inverse variances
// for weights; its variance is the inverse of their sum.
func TestCombineWeighsByInverseVariance(t *testing.T) {
	list := []cues.EndMass{{Log: -5, Spread: 0.1}, {Log: -5.1, Spread: 0.05}, {Log: -5.03, Spread: 0.2}}
	var x, w []float64
	sum := 0.0
	for _, e := range list {
		x, w = append(x, e.Log), append(w, 1/(e.Spread*e.Spread))
		sum += 1 / (e.Spread * e.Spread)
	}
	got, err := cues.Combine(list)
	require.NoError(t, err)
	assert.InDelta(t, stat.Mean(x, w), got.Log, 1e-12)
	assert.InDelta(t, 1/math.Sqrt(sum), got.Spread, 1e-12)
	assert.Empty(t, got.Changes)
	assert.Zero(t, got.Since)

	one, err := cues.Combine(list[:1])
	require.NoError(t, err)
	assert.Equal(t, list[0], one.EndMass)
	_, err = cues.Combine(nil)
	assert.ErrorIs(t, err, cues.ErrNone)
}

func TestCombinePointsOutAChange(t *testing.T) {
	before, after := cue(t, 9.5, 0.1).Known, cue(t, 13, 0.08).Known
	got, err := cues.Combine([]cues.EndMass{before, before, after, after})
	require.NoError(t, err)
	assert.Equal(t, []int{2}, got.Changes)
	assert.Equal(t, 2, got.Since)
	assert.InDelta(t, after.Log, got.Log, 1e-12, "of the cue as it is now")
	assert.InDelta(t, after.Spread/math.Sqrt2, got.Spread, 1e-12)

	twice, err := cues.Combine([]cues.EndMass{before, after, before})
	require.NoError(t, err)
	assert.Equal(t, []int{1, 2}, twice.Changes)
}

// Common practice, no source: a length that nobody gave an interval is good to a
// tenth to either side.
func TestAssumedIsATenth(t *testing.T) { assert.Equal(t, 0.1, cues.Assumed) }
