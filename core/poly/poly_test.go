package poly_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/poly"
)

// product returns c·Π(t − root), of degree four at most.
func product(c float64, roots ...float64) poly.Quartic {
	p := poly.Quartic{c}
	for _, r := range roots {
		var next poly.Quartic
		for i, q := range p {
			next[i] -= r * q
			if q != 0 {
				next[i+1] += q
			}
		}
		p = next
	}
	return p
}

func TestRootsAreThoseThePolynomialWasBuiltFrom(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 20_000 {
		roots := make([]float64, 1+rng.IntN(4))
		for i := range roots {
			roots[i] = 20*rng.Float64() - 10
		}
		slices.Sort(roots)
		apart := true // close roots are ill-conditioned for every method
		for i := 1; i < len(roots); i++ {
			apart = apart && roots[i]-roots[i-1] > 0.1
		}
		if !apart {
			continue
		}
		p := product(math.Exp(6*rng.Float64()-3)*float64(1-2*rng.IntN(2)), roots...)
		lo, hi := -10.5+10*rng.Float64(), 0.5+10*rng.Float64()
		var want []float64
		for _, r := range roots {
			if r > lo+1e-9 && r < hi-1e-9 {
				want = append(want, r)
			}
		}
		got, n := p.Roots(lo, hi)
		require.Equal(t, len(want), n, "%v on [%v, %v]", roots, lo, hi)
		for i, r := range want {
			require.InDelta(t, r, got[i], 1e-8, "%v", roots)
		}
	}
}

func TestRootsOfDegenerateDegrees(t *testing.T) {
	for _, c := range []struct {
		name   string
		p      poly.Quartic
		lo, hi float64
		want   []float64
	}{
		{"nothing", poly.Quartic{}, -1, 1, nil},
		{"a constant", poly.Quartic{3}, -1, 1, nil},
		{"a line", poly.Quartic{-1, 2}, 0, 1, []float64{0.5}},
		{"a line that is one half way", poly.Quartic{-1, 2}, 0, 2, []float64{0.5}},
		{"a line, outside", poly.Quartic{-1, 2}, 0, 0.4, nil},
		{"no real root", poly.Quartic{1, 0, 1}, -5, 5, nil},
		{"two", poly.Quartic{-1, 0, 1}, -5, 5, []float64{-1, 1}},
		{"one of the two", poly.Quartic{-1, 0, 1}, 0, 5, []float64{1}},
		{"a double root is no change of sign", product(1, 2, 2), 0, 5, nil},
		{"a double root beside a single one", product(1, 1, 3, 3), 0, 2.5, []float64{1}},
		{"a triple root", product(1, 1, 1, 1), 0, 3, []float64{1}},
		{"a vanishing highest coefficient", poly.Quartic{-1, 2, 1e-300, 1e-300, 1e-300}, 0, 1, []float64{0.5}},
		{"an empty interval", poly.Quartic{-1, 2}, 0.5, 0.5, nil},
		{"far away", product(1, 1e6), 0, 1e9, []float64{1e6}},
		{"of very different sizes", product(1, 1e-18, 3e-18, 1), 0, 2, []float64{1e-18, 3e-18, 1}},
		{"a tiny one", poly.Quartic{-1e-12, 1, 1, 1, 1}, 0, 1, []float64{1e-12}},
	} {
		got, n := c.p.Roots(c.lo, c.hi)
		if assert.Equal(t, len(c.want), n, c.name) {
			for i := range c.want {
				assert.InDelta(t, c.want[i], got[i], 1e-5*math.Abs(c.want[i]), c.name)
			}
		}
	}
}

func TestAtAndDerivative(t *testing.T) {
	p := poly.Quartic{1, -2, 3, -4, 5}
	assert.Equal(t, 1-4+12-32+80.0, p.At(2))
	assert.Equal(t, poly.Quartic{-2, 6, -12, 20}, p.Derivative())
}

// The polynomial has opposite signs on the two sides of every root found, as close to it
// as floats allow.
func TestRootsAreSharp(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	found := 0
	for range 20_000 {
		var p poly.Quartic
		for i := range p {
			p[i] = rng.NormFloat64()
		}
		roots, n := p.Roots(-3, 3)
		found += n
		for i, r := range roots[:n] {
			h := 1e-11 * (1 + math.Abs(r))
			// A nearly double root leaves no room between its two sides.
			if d := p.Derivative(); math.Abs(d.At(r)) < 1e-2 {
				continue
			}
			require.NotEqual(t, p.At(r-h) < 0, p.At(r+h) < 0, "%v at %v", p, r)
			require.True(t, i == 0 || roots[i-1] < r)
		}
	}
	assert.Greater(t, found, 20_000)
}
