package cues_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"pivotbench/core/cues"
)

// measuredOften are measurements of one cue, each with a standard deviation of a
// tenth, of whose variance a share is the same in all.
func measuredOften(n int, share float64, rng *rand.Rand) []cues.EndMass {
	const spread, truth = 0.1, -5
	own, all := spread*math.Sqrt(1-share), spread*math.Sqrt(share)
	same := all * rng.NormFloat64()
	out := make([]cues.EndMass, n)
	for i := range out {
		out[i] = cues.EndMass{Log: truth + same + own*rng.NormFloat64(), Spread: spread, Shared: all}
	}
	return out
}

// A cue that stays as it is, measured ten times: at most one time in ten is any
// change pointed out, and the interval of all together holds the truth about nine
// times in ten, whether or not the measurements share a part of their error.
func TestTenMeasurementsOfOneCue(t *testing.T) {
	const n = 10000 // the standard error of a share is below 0.5 %
	for _, share := range []float64{0, 0.5, 0.9} {
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
	list := make([]cues.EndMass, 50)
	for i := range list {
		list[i] = cues.EndMass{Log: -5, Spread: 0.1, Shared: 0.06}
	}
	got, err := cues.Combine(list)
	require.NoError(t, err)
	assert.InDelta(t, math.Hypot(0.06, 0.08/math.Sqrt(50)), got.Spread, 1e-12)
	assert.InDelta(t, 0.06, got.Shared, 1e-12)
	// And cancels in the difference of two.
	a, b := cues.EndMass{Log: -5, Spread: 0.1, Shared: 0.06}, cues.EndMass{Log: -4.9, Spread: 0.1, Shared: 0.06}
	assert.InDelta(t, 0.8116, cues.Less(a, b), 1e-4) // Φ(0.1 / (0.08 √2))
}

// gonum/mat: the weights of least variance are C⁻¹1 over their sum, for three
// measurements that share an error of one size.
func TestCombineAgainstALibrary(t *testing.T) {
	list := []cues.EndMass{{Log: -5, Spread: 0.1, Shared: 0.05}, {Log: -5.1, Spread: 0.08, Shared: 0.05}, {Log: -4.95, Spread: 0.15, Shared: 0.05}}
	c := mat.NewDense(3, 3, nil)
	for i, a := range list {
		for j, b := range list {
			c.Set(i, j, a.Shared*b.Shared)
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
	good, bad := cues.EndMass{Log: -5, Spread: 0.05, Shared: 0.049}, cues.EndMass{Log: -5.1, Spread: 0.2, Shared: 0.199}
	for _, list := range [][]cues.EndMass{{good, bad}, {bad, good}} {
		got, err := cues.Combine(list)
		require.NoError(t, err)
		assert.Empty(t, got.Changes)
		assert.InDelta(t, good.Log, got.Log, 1e-12)
		assert.InDelta(t, good.Spread, got.Spread, 1e-12)
	}
}
