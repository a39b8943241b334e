package stat_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	mine "pivotbench/core/stat"
	"pivotbench/core/unit"
)

// gonum/stat: its own Student's t, mean and variance.
func TestStudentAgainstALibrary(t *testing.T) {
	for _, freedom := range []float64{1, 2, 3.7, 10, 60} {
		d := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: freedom}
		for _, p := range []float64{0.5, 0.6, 0.9, 0.95, 0.995} {
			q := mine.StudentQuantile(freedom, p)
			assert.InDelta(t, p, d.CDF(q), 1e-10, "%v, %v", freedom, p)
			assert.Equal(t, q, mine.StudentReach(freedom, 2*p-1))
		}
	}
	values := []float64{1.2, 1.9, 0.7, 1.4}
	mean, squares := mine.Spread(values)
	wantMean, wantVariance := stat.MeanVariance(values, nil)
	assert.InDelta(t, wantMean, mean, 1e-14)
	assert.InDelta(t, wantVariance, squares/3, 1e-14)
}

// A standard table of Student's distribution: 95 % one-sided (from memory).
func TestPrintedTable(t *testing.T) {
	for freedom, want := range map[float64]float64{1: 6.314, 2: 2.920, 4: 2.132, 10: 1.812, 30: 1.697} {
		assert.InDelta(t, want, mine.StudentQuantile(freedom, 0.95), 5e-4)
	}
}

// gonum/stat/distuv: its standard Normal.
func TestNormalAgainstALibrary(t *testing.T) {
	for _, z := range []float64{-6, -2.5, -1, -0.01, 0, 0.3, 1.645, 5} {
		p := distuv.UnitNormal.CDF(z)
		assert.InEpsilon(t, p, mine.Normal(z), 1e-12)
		assert.InEpsilon(t, distuv.UnitNormal.Prob(z), mine.NormalDensity(z), 1e-12)
		assert.InDelta(t, z, mine.NormalQuantile(p), 1e-3*math.Exp(z*z/2-12)+1e-9)
	}
	assert.InDelta(t, distuv.UnitNormal.Quantile(0.95), mine.Reach90, 1e-12)
	assert.InDelta(t, distuv.UnitNormal.Quantile(0.75), mine.Reach(0.5), 1e-12)
	assert.False(t, math.IsInf(mine.NormalQuantile(0), 0) || math.IsInf(mine.NormalQuantile(1), 0))
}

// The table is as good as it says, everywhere and beyond its ends.
func TestQuickNormal(t *testing.T) {
	for z := -8.0; z <= 8; z += 0.0037 {
		assert.InDelta(t, mine.Normal(z), mine.QuickNormal(z), 1e-5, "%v", z)
	}
	assert.Zero(t, mine.QuickNormal(math.Inf(-1)))
	assert.Equal(t, 1.0, mine.QuickNormal(math.Inf(1)))
	assert.Zero(t, mine.QuickNormal(math.NaN()), "what is no number is never met")
}

func TestQuickDensity(t *testing.T) {
	for z := -7.99; z < 8; z += 0.0037 {
		assert.InEpsilon(t, distuv.UnitNormal.Prob(z), mine.QuickDensity(z), 0.002, "%v", z)
	}
	for _, z := range []float64{-8.01, 9, math.Inf(1), math.Inf(-1), math.NaN()} {
		assert.Zero(t, mine.QuickDensity(z), "%v", z)
	}
}

func TestInterval(t *testing.T) {
	i := mine.Between(13*unit.Inch, 12*unit.Inch)
	assert.Equal(t, mine.Interval[unit.Length]{From: 12 * unit.Inch, To: 13 * unit.Inch}, i)
	for at, held := range map[unit.Length]bool{12 * unit.Inch: true, 12.5 * unit.Inch: true, 13 * unit.Inch: true, 11.99 * unit.Inch: false, 13.01 * unit.Inch: false} {
		assert.Equal(t, held, i.Holds(at))
	}
	assert.Equal(t, mine.Interval[float64]{From: 3, To: 7}, mine.Around(5.0, 2))
	e := mine.Estimate[float64]{Median: 10, Interval: mine.Interval[float64]{From: 9.2, To: 10.7}}
	assert.True(t, e.Within(0.081))
	assert.False(t, e.Within(0.075), "the lower end is further")
	e.From, e.To = 9.5, 10.9
	assert.True(t, e.Within(0.09))
	assert.False(t, e.Within(0.085), "the upper end is further")
	e = mine.Estimate[float64]{Median: 8, Interval: mine.Around(8.0, 2)} // exact in binary
	assert.True(t, e.Within(0.25), "the ends are within")
}

// The mean of a product over the cube, by a point set far too small for chance
// to be so near: 1/4 in two dimensions, by elementary calculus.
func TestHalton(t *testing.T) {
	for shift := range 3 {
		points := mine.Halton(500, []int{2, 3}, shift)
		sum := 0.0
		for _, p := range points {
			assert.True(t, p[0] >= 0 && p[0] < 1 && p[1] >= 0 && p[1] < 1)
			sum += p[0] * p[1]
		}
		assert.InDelta(t, 0.25, sum/500, 0.004, "shift %d", shift) // chance scatters by 0.01
	}
	// Halton's own first points in base 2 and 3 (1960).
	first := mine.Halton(3, []int{2, 3}, 0)
	assert.InDeltaSlice(t, []float64{0.5, 1.0 / 3}, first[0], 1e-15)
	assert.InDeltaSlice(t, []float64{0.25, 2.0 / 3}, first[1], 1e-15)
	assert.InDeltaSlice(t, []float64{0.75, 1.0 / 9}, first[2], 1e-15)
}

// The root of a matrix by hand: [[4 2] [2 5]] is L·Lᵀ with L = [[2 0] [1 2]].
func TestCholesky(t *testing.T) {
	root, ok := mine.Cholesky([][]float64{{4, 2}, {2, 5}})
	assert.True(t, ok)
	assert.Equal(t, mine.Root{{2}, {1, 2}}, root)
	assert.Equal(t, []float64{6, 11}, root.Apply([]float64{3, 4}))
	assert.Equal(t, []float64{3, 4}, root.Solve([]float64{6, 11}))
}

// gonum/mat: its own Cholesky decomposition, of random positive matrices.
func TestCholeskyAgainstALibrary(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 9))
	for range 200 {
		n := 1 + r.IntN(6)
		a := mat.NewDense(n, n, nil)
		for i := range n {
			for j := range n {
				a.Set(i, j, r.NormFloat64()*math.Pow(10, float64(i)))
			}
		}
		var product mat.SymDense
		product.SymOuterK(1, a)
		m := make([][]float64, n)
		for i := range m {
			m[i] = make([]float64, n)
			for j := range m[i] {
				m[i][j] = product.At(i, j)
			}
		}
		var chol mat.Cholesky
		require.True(t, chol.Factorize(&product))
		var want mat.TriDense
		chol.LTo(&want)
		root, ok := mine.Cholesky(m)
		require.True(t, ok)
		v := make([]float64, n)
		for i := range v {
			v[i] = r.NormFloat64()
			for j := range i + 1 {
				require.InDelta(t, want.At(i, j), root[i][j], 1e-9*math.Sqrt(m[i][i]))
			}
		}
		var applied mat.VecDense
		applied.MulVec(&want, mat.NewVecDense(n, v))
		for i, x := range root.Apply(v) {
			require.InDelta(t, applied.AtVec(i), x, 1e-9*math.Sqrt(m[i][i]))
		}
		back := root.Solve(root.Apply(v))
		for i := range v {
			require.InDelta(t, v[i], back[i], 1e-6)
		}
	}
}

// What has no root: a matrix that is not square, not symmetric by more than
// rounding, or not positive.
func TestCholeskyRefuses(t *testing.T) {
	for name, m := range map[string][][]float64{
		"not square":             {{1, 0}, {0}},
		"not symmetric":          {{400, 1}, {1 + 1e-6, 900}},
		"not positive":           {{1, 2}, {2, 1}},
		"only just not positive": {{1, 1}, {1, 1}},
		"nothing":                {{0}},
		"not a number":           {{math.NaN()}},
	} {
		_, ok := mine.Cholesky(m)
		assert.False(t, ok, name)
	}
	_, ok := mine.Cholesky([][]float64{{4e4, 1}, {1 + 1e-6, 9e4}})
	assert.True(t, ok, "no more than rounding, next to entries like these")
}

// A shift moves all points by the same amount, wrapped round.
func TestHaltonShifts(t *testing.T) {
	still, moved := mine.Halton(50, []int{2, 5}, 0), mine.Halton(50, []int{2, 5}, 3)
	for d := range 2 {
		by := moved[0][d] - still[0][d]
		assert.Greater(t, math.Abs(by-math.Round(by)), 0.01)
		for i := range still {
			off := moved[i][d] - still[i][d] - by
			assert.InDelta(t, 0, off-math.Round(off), 1e-12)
		}
	}
}

func TestIntervalsTogether(t *testing.T) {
	all := mine.Interval[float64]{From: 2, To: 5}
	for _, c := range []struct {
		from, to      float64
		covered, meet bool
	}{
		{2, 5, true, true}, {3, 4, true, true}, {1.9, 4, false, true}, {3, 5.1, false, true}, {1, 6, false, true},
		{0, 2, false, true}, {5, 7, false, true}, {0, 1.9, false, false}, {5.1, 7, false, false},
	} {
		other := mine.Interval[float64]{From: c.from, To: c.to}
		assert.Equal(t, c.covered, all.Covers(other), "%v", other)
		assert.Equal(t, c.meet, all.Meets(other), "%v", other)
		assert.Equal(t, c.meet, other.Meets(all), "%v", other)
	}
}

// gonum/stat/distuv: the quantiles of a log-normal quantity, and of its inverse,
// which is log-normal too.
func TestTransformAgainstALibrary(t *testing.T) {
	const mu, sigma = 1.2, 0.3
	logs := mine.NormalEstimate(mu, sigma)
	assert.InDelta(t, distuv.Normal{Mu: mu, Sigma: sigma}.Quantile(0.05), logs.From, 1e-12)
	rising := mine.Transform(logs, math.Exp)
	falling := mine.Transform(logs, func(x float64) unit.Length { return unit.Length(math.Exp(-x)) })
	up, down := distuv.LogNormal{Mu: mu, Sigma: sigma}, distuv.LogNormal{Mu: -mu, Sigma: sigma}
	assert.InDeltaSlice(t, []float64{up.Quantile(0.05), up.Quantile(0.5), up.Quantile(0.95)},
		[]float64{rising.From, rising.Median, rising.To}, 1e-9)
	assert.InDeltaSlice(t, []float64{down.Quantile(0.05), down.Quantile(0.5), down.Quantile(0.95)},
		[]float64{float64(falling.From), float64(falling.Median), float64(falling.To)}, 1e-9)
}

// The quantiles of the uniform distribution are its probabilities, of any
// histogram of it.
func TestSummaryOfAHistogram(t *testing.T) {
	even := []float64{0.1, 0.4, 0, 0.5}
	edges := []float64{0, 0.1, 0.5, 0.5, 1}
	at := func(p float64) float64 {
		place := mine.HistogramQuantile(even, p)
		bin := min(int(place), 3)
		return edges[bin] + (edges[bin+1]-edges[bin])*(place-float64(bin))
	}
	for _, p := range []float64{0, 0.03, 0.1, 0.25, 0.5, 0.51, 0.99, 1} {
		assert.InDelta(t, p, at(p), 1e-12)
	}
	assert.Equal(t, 2.0, mine.HistogramQuantile([]float64{0.5, 0.5 - 1e-9}, 1), "rounding at the end")
	s := mine.Summarize(at)
	assert.InDeltaSlice(t, []float64{0.05, 0.25, 0.5, 0.75, 0.95}, []float64{s.From, s.Half.From, s.Median, s.Half.To, s.To}, 1e-12)
	fallen := mine.Summarize(func(p float64) float64 { return -at(p) })
	assert.InDeltaSlice(t, []float64{-0.95, -0.75, -0.5, -0.25, -0.05},
		[]float64{fallen.From, fallen.Half.From, fallen.Median, fallen.Half.To, fallen.To}, 1e-12)
}
