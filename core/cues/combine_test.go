package cues_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"pivotbench/core/cues"
)

// sittings are shares of sittings without a name, so of different ones: an error by one
// cause, of a size that makes the part which repeats from sitting to sitting as large as
// common.
func sittings(common float64) []cues.Share {
	return []cues.Share{{By: [cues.Causes]float64{2: common / math.Sqrt(cues.Habit)}}}
}

// measuredOften are measurements of one cue, each with a standard deviation of a
// tenth, of whose variance a share is the same in all.
func measuredOften(n int, share float64, rng *rand.Rand) []cues.EndMass {
	const spread, truth = 0.1, -5
	own, all := spread*math.Sqrt(1-share), spread*math.Sqrt(share)
	same := all * rng.NormFloat64()
	out := make([]cues.EndMass, n)
	for i := range out {
		out[i] = cues.EndMass{Log: truth + same + own*rng.NormFloat64(), Spread: spread, Shared: sittings(all)}
	}
	return out
}

// A cue that stays as it is, measured ten times: at most one time in ten is any
// change pointed out, and the interval of all together holds the truth about nine
// times in ten, whether or not the measurements share a part of their error. They
// share half of it when nothing but the set-up is wrong.
func TestTenMeasurementsOfOneCue(t *testing.T) {
	const n = 10000 // the standard error of a share is below 0.5 %
	for _, share := range []float64{0, 0.25, 0.5} {
		rng := rand.New(rand.NewPCG(1, 2))
		alarms, held := 0, 0
		for range n {
			got, err := cues.Combine(measuredOften(10, share, rng))
			require.NoError(t, err)
			if len(got.Changes) > 0 {
				alarms++
			}
			band := got.EndMass.Estimate()
			if mass := math.Exp(-5); float64(band.From) <= mass && mass <= float64(band.To) {
				held++
			}
		}
		assert.Less(t, float64(alarms)/n, 0.1, "%v shared", share)
		assert.Greater(t, float64(alarms)/n, 0.03, "%v shared: a change can be told", share)
		assert.InDelta(t, 0.9, float64(held)/n, 0.03, "%v shared", share)
	}
}

// What all measurements share stays, however many there are.
func TestSharedErrorStays(t *testing.T) {
	const common = 0.06
	list := make([]cues.EndMass, 50)
	for i := range list {
		list[i] = cues.EndMass{Log: -5, Spread: 0.1, Shared: sittings(common)}
	}
	got, err := cues.Combine(list)
	require.NoError(t, err)
	assert.InDelta(t, math.Hypot(common, 0.08/math.Sqrt(50)), got.Spread, 1e-12)
	// And cancels in the difference of two.
	a, b := cues.EndMass{Log: -5, Spread: 0.1, Shared: sittings(common)}, cues.EndMass{Log: -4.9, Spread: 0.1, Shared: sittings(common)}
	assert.InDelta(t, 0.8116, cues.Less(a, b), 1e-4) // Φ(0.1 / (0.08 √2))
	// Fifty measurements of each leave of their difference what is not common.
	b = got.EndMass
	b.Log = -4.99
	assert.InDelta(t, distuv.UnitNormal.CDF(0.01/(0.08*math.Sqrt(2./50))), cues.Less(got.EndMass, b), 1e-9)
}

// Cues of one sitting share its errors wholly, and those of two sittings in part, by
// the ordinary variance of a difference. An error that moves one cue up and the other
// down makes their difference less sure.
func TestCuesOfOneSitting(t *testing.T) {
	known := func(log float64, sitting string, by float64) cues.EndMass {
		return cues.EndMass{Log: log, Spread: 0.1, Shared: []cues.Share{{Sitting: sitting, By: [cues.Causes]float64{0: by, 1: 0.02}}}}
	}
	for _, tc := range []struct {
		a, b string
		by   float64 // of the second cue
		in   float64 // covariance
	}{
		{"Tuesday", "Tuesday", 0.08, 0.08*0.08 + 0.02*0.02},
		{"Tuesday", "Wednesday", 0.08, (0.08*0.08 + 0.02*0.02) * cues.Habit},
		{"", "", 0.08, (0.08*0.08 + 0.02*0.02) * cues.Habit},
		{"Tuesday", "Tuesday", -0.08, -0.08*0.08 + 0.02*0.02},
	} {
		want := distuv.UnitNormal.CDF(0.1 / math.Sqrt(2*0.1*0.1-2*tc.in))
		assert.InDelta(t, want, cues.Less(known(-5, tc.a, 0.08), known(-4.9, tc.b, tc.by)), 1e-9, "%+v", tc)
	}
	// More in common than there is error can't be.
	big := cues.EndMass{Log: -5, Spread: 0.1, Shared: []cues.Share{{Sitting: "x", By: [cues.Causes]float64{1}}}}
	less := cues.Less(big, cues.EndMass{Log: -4.999, Spread: 0.1, Shared: big.Shared})
	assert.InDelta(t, distuv.UnitNormal.CDF(0.2), less, 1e-9, "no pivot length is known better than to a half per cent")
}

// gonum/mat: the weights of least variance are C⁻¹1 over their sum, for three
// measurements that share an error of one size.
func TestCombineAgainstALibrary(t *testing.T) {
	shared := sittings(0.05)
	list := []cues.EndMass{{Log: -5, Spread: 0.1, Shared: shared}, {Log: -5.1, Spread: 0.08, Shared: shared}, {Log: -4.95, Spread: 0.15, Shared: shared}}
	c := mat.NewDense(3, 3, nil)
	for i, a := range list {
		for j := range list {
			c.Set(i, j, 0.05*0.05)
		}
		c.Set(i, i, a.Spread*a.Spread)
	}
	var w mat.VecDense
	require.NoError(t, w.SolveVec(c, mat.NewVecDense(3, []float64{1, 1, 1})))
	sum, mean := 0.0, 0.0
	for i, m := range list {
		sum += w.AtVec(i)
		mean += w.AtVec(i) * m.Log
	}
	got, err := cues.Combine(list)
	require.NoError(t, err)
	assert.InDelta(t, mean/sum, got.Log, 1e-12)
	assert.InDelta(t, 1/math.Sqrt(sum), got.Spread, 1e-12)
}

// A measurement that is nearly all shared error, and far worse than the other, is
// left alone: to weigh it less than nothing would be to trust the model too far.
func TestCombineWeighsNothingBelowZero(t *testing.T) {
	good, bad := cues.EndMass{Log: -5, Spread: 0.05, Shared: sittings(0.049)}, cues.EndMass{Log: -5.1, Spread: 0.2, Shared: sittings(0.199)}
	for _, list := range [][]cues.EndMass{{good, bad}, {bad, good}} {
		got, err := cues.Combine(list)
		require.NoError(t, err)
		assert.Empty(t, got.Changes)
		assert.InDelta(t, good.Log, got.Log, 1e-12)
		assert.InDelta(t, good.Spread, got.Spread, 1e-12)
	}
}

// The ratio of two log-normal quantities is log-normal. What they share cancels.
func TestRatio(t *testing.T) {
	a, b := cues.EndMass{Log: math.Log(0.006), Spread: 0.1, Shared: sittings(0.06)}, cues.EndMass{Log: math.Log(0.004), Spread: 0.1, Shared: sittings(0.06)}
	ratio := cues.Ratio(a, b)
	sd := math.Sqrt(2*0.1*0.1 - 2*0.06*0.06)
	assert.InDelta(t, 1.5, ratio.Median, 1e-12)
	assert.InDelta(t, 1.5*math.Exp(sd*distuv.UnitNormal.Quantile(0.05)), ratio.From, 1e-9)
	assert.InDelta(t, 1.5*math.Exp(sd*distuv.UnitNormal.Quantile(0.95)), ratio.To, 1e-9)
}
