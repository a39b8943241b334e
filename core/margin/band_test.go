package margin_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/margin"
	"pivotbench/core/motion"
	"pivotbench/core/unit"
)

// A straight ball arrives D sin ε to the side, so 90 % are within D sin(1.6449 σ) and
// half within D sin(0.6745 σ) (any table of the Normal distribution).
func TestBandInClosedForm(t *testing.T) {
	s, m := straight(), margin.NewSampler(10_000)
	sc := margin.Scatter{Aim: 0.5 * unit.Degree}
	dists := []unit.Length{0.1, 0.5, 1.2}
	for share, z := range map[float64]float64{0.9: 1.6448536, 0.5: 0.6744898} {
		band := m.Band(&s, sc, share, dists)
		require.Len(t, band, len(dists))
		for i, span := range band {
			want := float64(dists[i]) * math.Sin(z*float64(sc.Aim))
			assert.Equal(t, dists[i], span.Dist)
			assert.Equal(t, 1.0, span.Reach)
			assert.InEpsilon(t, want, float64(span.To), 0.01)
			assert.InEpsilon(t, -want, float64(span.From), 0.01)
		}
	}
	for _, share := range []float64{0, 1} {
		span := m.Band(&s, margin.Scatter{}, share, dists)[0]
		assert.Equal(t, span.From, span.To, "no scatter, no width")
		assert.InDelta(t, 0, float64(span.To), 1e-15)
	}
	all := m.Band(&s, sc, 1, dists)[2]
	assert.Greater(t, float64(all.To), float64(dists[2])*math.Sin(3*float64(sc.Aim)), "all of them")
}

// Nine of ten simulated strokes lie in the band, and equal shares of the rest lie on
// either side.
func TestBandHoldsItsShare(t *testing.T) {
	s := medium()
	dists := []unit.Length{12 * unit.Inch, 36 * unit.Inch}
	band := margin.NewSampler(10_000).Band(&s, everything, 0.9, dists)
	rng := rand.New(rand.NewPCG(75, 76))
	var path motion.Path
	var left, right [2]float64
	sent := 0.0
	for range 40_000 {
		tried := played(rng, s, everything)
		if tried.Send(&path) != nil {
			continue
		}
		sent++
		for i, d := range dists {
			when, err := path.AtCircle(d)
			require.NoError(t, err)
			at, _ := path.At(when)
			if at.Pos.X < float64(band[i].From) {
				left[i]++
			} else if at.Pos.X > float64(band[i].To) {
				right[i]++
			}
		}
	}
	for i := range dists {
		assert.InDelta(t, 0.05, left[i]/sent, 0.004)
		assert.InDelta(t, 0.05, right[i]/sent, 0.004)
		assert.InDelta(t, sent/40_000, band[i].Reach, 0.004, "a miscue is never sent")
	}
	assert.Less(t, band[0].Reach, 1.0)
}

// A straight level ball stops at a distance proportional to the square of its speed
// (12v²/49μ_s g of slide, then (5v/7)²/2μ_r g of roll), so it reaches D at the speed v
// √(D/D₀), where D₀ is where the intended speed v stops.
func TestReach(t *testing.T) {
	s := straight()
	s.Speed = 1
	stop := 12/(49*s.Cloth.Slide*unit.Gravity) + 25.0/49/(2*s.Cloth.Roll*unit.Gravity)
	sc := margin.Scatter{Speed: 0.1}
	dists := []unit.Length{unit.Length(0.5 * stop), unit.Length(0.95 * stop), unit.Length(1.1 * stop), unit.Length(3 * stop)}
	band := margin.NewSampler(10_000).Band(&s, sc, 0.9, dists)
	require.Len(t, band, 3, "no stroke reaches the last distance")
	for i, share := range []float64{0.5, 0.95, 1.1} {
		assert.InDelta(t, phi((1-math.Sqrt(share))/sc.Speed), band[i].Reach, 0.003)
	}
}
