package hop_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/contact"
	"pivotbench/core/gear"
	"pivotbench/core/hop"
	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// Elementary geometry: passing over the top takes a whole diameter. With no gap, passing
// over the point where the two blockers touch takes √3 R, the height of an equilateral
// triangle of side 2R. Passing beside a ball takes nothing.
func TestHeightOver(t *testing.T) {
	assert.InDelta(t, float64(2*radius), float64(hop.HeightOver(0, radius)), 1e-15)
	assert.InDelta(t, math.Sqrt(3)*float64(radius), float64(hop.HeightOver(radius, radius)), 1e-15)
	assert.InDelta(t, math.Sqrt(3)*float64(radius), float64(hop.HeightOver(-radius, radius)), 1e-15)
	assert.Zero(t, hop.HeightOver(2*radius, radius))
	assert.Zero(t, hop.HeightOver(3*radius, radius))
}

// The needed height agrees with a sweep: a ball lowered in steps of 10 µm onto a blocker
// touches within one step of it.
func TestNeedsAgreeWithASweep(t *testing.T) {
	rng := rand.New(rand.NewPCG(61, 62))
	lower := func(ball, post vec.V) float64 {
		const step = 1e-5
		z := 0.07
		for ; z > 0; z -= step {
			if math.Hypot(math.Hypot(ball.X-post.X, ball.Y-post.Y), z) < 2*float64(radius) {
				return z + step/2
			}
		}
		return 0
	}
	over, beside := 0, 0
	for range 200 {
		s := anyHop(rng)
		p := send(s)
		left, right, err := hop.Needs(p, s.Gate, radius)
		if err != nil {
			require.ErrorIs(t, err, motion.ErrStops)
			continue
		}
		when, _ := p.AtLine(s.Gate.Dist)
		ball, _ := p.At(when)
		l, r := contact.Posts(s.Gate, radius)
		for _, c := range []struct {
			need hop.Need
			post vec.V
		}{{left, l}, {right, r}} {
			assert.InDelta(t, lower(ball.Pos, c.post), float64(c.need.Height), 1e-5)
			assert.InDelta(t, math.Abs(ball.Pos.X-c.post.X), float64(c.need.Aside), 1e-15)
			assert.InDelta(t, ball.Pos.Z, float64(c.need.Has), 1e-15)
			if c.need.Height > 0 {
				over++
			} else {
				beside++
			}
		}
	}
	assert.Greater(t, over, 30)
	assert.Greater(t, beside, 10, "a ball off to a side passes one of them beside")
}

func TestNeedsOfNoGate(t *testing.T) {
	s := hopping()
	_, _, err := hop.Needs(send(s), gear.Gate{}, radius)
	assert.ErrorIs(t, err, contact.ErrNoGate)
	_, _, err = hop.Needs(send(s), gear.Gate{Dist: 1 * unit.Inch}, radius)
	assert.ErrorIs(t, err, contact.ErrOverlap)
	_, _, err = hop.Needs(send(s), gear.Gate{Dist: 100}, radius)
	assert.ErrorIs(t, err, motion.ErrStops)
}
