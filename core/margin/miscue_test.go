package margin_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/margin"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// slips returns how many of n randomly drawn strokes miscue, according to strike.Prepare.
func slips(side, height float64, pivot, tip unit.Length, n int) float64 {
	rng, s := rand.New(rand.NewPCG(91, 92)), level()
	s.Cue.Pivot, s.Contact = pivot, strike.Contact{Side: side, Height: height}
	slipped := 0
	for range n {
		tried := played(rng, s, margin.Scatter{Tip: tip})
		if _, _, _, err := tried.Stroke(); err != nil {
			slipped++
		}
	}
	return float64(slipped) / float64(n)
}

// The probability of a miscue agrees with a Monte Carlo simulation.
func TestMiscuesAgreeWithSimulation(t *testing.T) {
	for _, c := range []struct {
		side, height float64
		pivot, tip   unit.Length
	}{
		{0.5, 0, 12 * unit.Inch, 1.5 * unit.Millimetre},
		{-0.4, 0, 19 * unit.Inch, 2.5 * unit.Millimetre},
		{0.3, -0.4, 9.5 * unit.Inch, 2 * unit.Millimetre},
		{0, 0.5, 40 * unit.Inch, 3 * unit.Millimetre},
		{0, 0, 12 * unit.Inch, 8 * unit.Millimetre},
		{0.62, 0, 12 * unit.Inch, 1 * unit.Millimetre},
		{0.5, 0, 5.5 * unit.Inch, 1.5 * unit.Millimetre}, // the edge of the tip is the limit here
	} {
		s := level()
		s.Cue.Pivot, s.Contact = c.pivot, strike.Contact{Side: c.side, Height: c.height}
		got, err := margin.Miscues(&s, c.tip)
		require.NoError(t, err)
		const n = 40_000 // one standard error is at most 0.25 %
		assert.InDelta(t, slips(c.side, c.height, c.pivot, c.tip, n), got, 0.008, "%+v", c)
	}
}

func TestMiscuesWithoutScatter(t *testing.T) {
	s := level()
	for side, want := range map[float64]float64{0.5: 0, 0.6: 1} {
		s.Contact.Side = side
		got, err := margin.Miscues(&s, 0)
		require.NoError(t, err)
		assert.Equal(t, want, got)
		least, err := margin.Miscues(&s, 1e-9)
		require.NoError(t, err)
		assert.InDelta(t, want, least, 1e-9)
	}
}

// For a centre ball the distance of the scattered tip has a Rayleigh distribution: it
// exceeds the last offset ρ with the probability exp(−ρ²/2σ²).
func TestMiscuesOfACentreBall(t *testing.T) {
	s := level()
	s.Contact = strike.Contact{}
	k, err := strike.MassRatio(s.Ball, s.Cue)
	require.NoError(t, err)
	for _, tip := range []unit.Length{4, 8, 16, 50} {
		got, err := margin.Miscues(&s, tip*unit.Millimetre)
		require.NoError(t, err)
		z := strike.LastOffset(k, s.Cue.Tip) * float64(s.Ball.Radius/(tip*unit.Millimetre))
		assert.InDelta(t, math.Exp(-z*z/2), got, 1e-6)
	}
}

// At the most playable english at most one stroke in a hundred miscues, and one step more
// exceeds that. At half a radius, an offset often recommended for measuring, a fair
// player miscues every tenth time, and twice as often with a low-deflection cue, which
// slips sooner.
func TestPlayableSide(t *testing.T) {
	for _, pivot := range []unit.Length{8, 12, 19, 40} {
		for _, height := range []float64{0, -0.25} {
			for _, tip := range []unit.Length{0.5, 1.5, 2.5} {
				s := level()
				s.Cue.Pivot, s.Contact.Height = pivot*unit.Inch, height
				side, err := margin.PlayableSide(&s, tip*unit.Millimetre)
				require.NoError(t, err)
				assert.InDelta(t, math.Round(20*side), 20*side, 1e-9, "whole steps of a twentieth")
				s.Contact.Side = side
				within, err := margin.Miscues(&s, tip*unit.Millimetre)
				require.NoError(t, err)
				assert.LessOrEqual(t, within, 0.01)
				s.Contact.Side += 0.05
				beyond, err := margin.Miscues(&s, tip*unit.Millimetre)
				require.NoError(t, err)
				assert.Greater(t, beyond, 0.01)
			}
		}
	}
	assert.InDelta(t, 0.1, slips(0.5, 0, 12*unit.Inch, 1.5*unit.Millimetre, 20_000), 0.02)
	assert.InDelta(t, 0.19, slips(0.5, 0, 19*unit.Inch, 1.5*unit.Millimetre, 20_000), 0.02)

	s := level()
	none, err := margin.PlayableSide(&s, 30*unit.Millimetre)
	require.NoError(t, err)
	assert.Zero(t, none)
	s.Cue.Pivot = 1 * unit.Inch
	_, err = margin.PlayableSide(&s, 1*unit.Millimetre)
	assert.True(t, errors.Is(err, strike.ErrPivot))
}
