package motion_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A path followed from any state on it, in the air, sliding or rolling, continues as the
// original path does.
func TestFollowGoesOn(t *testing.T) {
	rng := rand.New(rand.NewPCG(51, 52))
	seen := map[motion.Phase]int{}
	var rest motion.Path
	for range 3000 {
		whole, cloth := randomPath(rng)
		from := whole.Stop() * unit.Span(rng.Float64())
		if roll := whole.RollStart(); rng.IntN(2) == 0 && roll > 0 {
			from = roll * unit.Span(rng.Float64())
		}
		state, phase := whole.At(from)
		seen[phase]++
		rest.Follow(state, ball.Radius, cloth)
		require.InDelta(t, float64(whole.Stop()-from), float64(rest.Stop()), 1e-9*float64(1+whole.Stop()))
		for i := range 20 {
			when := whole.Stop() * unit.Span(i) / 16
			if when < from {
				continue
			}
			want, _ := whole.At(when)
			got, _ := rest.At(when - from)
			require.Less(t, want.Pos.Sub(got.Pos).Norm(), 1e-9*(1+want.Pos.Norm()))
			require.Less(t, want.Vel.Sub(got.Vel).Norm(), 1e-8*(1+state.Vel.Norm()))
			require.Less(t, want.Spin.Sub(got.Spin).Norm(), 1e-8*(1+state.Spin.Norm())/float64(ball.Radius))
		}
	}
	for _, phase := range []motion.Phase{motion.Fly, motion.Slide, motion.Roll} {
		assert.Greater(t, seen[phase], 200, "phase %v", phase)
	}
}

// A ball dropped from a height h lands after √(2h/g) and rises again to e_t² h (any text
// on mechanics).
func TestFollowADrop(t *testing.T) {
	const height = 0.3
	start := vec.V{X: 1, Y: 2, Z: height}
	var p motion.Path
	p.Follow(motion.State{Pos: start}, ball.Radius, normal)
	fall := math.Sqrt(2 * height / unit.Gravity)
	first := p.Segments()[0]
	assert.Equal(t, motion.Fly, first.Phase)
	assert.InDelta(t, fall, float64(first.Length), 1e-15)
	top, _ := p.At(unit.Span(fall * (1 + normal.Rebound)))
	assert.InDelta(t, height*normal.Rebound*normal.Rebound, top.Pos.Z, 1e-15)
	end, phase := p.At(p.Stop())
	assert.Equal(t, motion.Rest, phase)
	assert.Equal(t, vec.V{X: 1, Y: 2}, end.Pos)

	p.Follow(motion.State{Pos: start, Vel: vec.V{Y: 1, Z: -2}}, ball.Radius, normal)
	begin, phase := p.At(0)
	assert.Equal(t, motion.Fly, phase, "moving down in the air, it has not reached the table yet")
	assert.Equal(t, -2.0, begin.Vel.Z)
}

// A path that is used again keeps nothing of its earlier contents.
func TestFollowStartsAfresh(t *testing.T) {
	s := motion.State{Vel: vec.V{Y: 1}, Spin: vec.V{Z: 20}}
	var used, fresh motion.Path
	used.Follow(motion.State{Vel: vec.V{X: 2, Y: 3, Z: 2}}, ball.Radius, normal)
	used.Follow(s, ball.Radius, normal)
	fresh.Follow(s, ball.Radius, normal)
	assert.Equal(t, fresh.Segments(), used.Segments())
}
