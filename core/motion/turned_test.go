package motion_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// The reference is the midpoint rule applied to the sidespin.
func TestTurnedIsTheSumOfSidespin(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 8))
	for range 40 {
		p, _ := randomPath(rng)
		end := float64(min(p.Stop()+1, 6))
		const steps = 20000
		sum := 0.0
		for i := range steps {
			s, _ := p.At(unit.Span(end * (float64(i) + 0.5) / steps))
			sum -= s.Spin.Z * end / steps
		}
		assert.InDelta(t, sum, float64(p.Turned(unit.Span(end))), 1e-3)
		assert.Zero(t, p.Turned(0))
		assert.Zero(t, p.Turned(-1))
	}
}

// Right english turns a ball to the left about the vertical: its right side moves
// forward.
func TestTurnedHasItsSign(t *testing.T) {
	p := motion.Run(vec.V{Y: 1}, vec.V{Z: 10}, ball.Radius, normal)
	assert.InDelta(t, -5, float64(p.Turned(p.Stop()+1)), 1e-12, "10 rad/s that die at 10 rad/s²")
}

// A ball without sidespin does not turn, neither on the cloth nor in the air, where
// sidespin does not decay.
func TestWithoutSidespinNothingTurns(t *testing.T) {
	p := motion.Run(vec.V{Y: 3, Z: -2}, vec.V{X: 5}, ball.Radius, normal)
	assert.Equal(t, motion.Fly, p.Segments()[0].Phase)
	for i := range 101 {
		assert.Zero(t, p.Turned(p.Stop()*unit.Span(i)/100))
	}
}
