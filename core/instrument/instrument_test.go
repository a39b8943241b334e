package instrument_test

import (
	"math/rand/v2"

	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

var (
	ball   = gear.Ball{Radius: 1.125 * unit.Inch, Mass: 170 * unit.Gram}
	tip    = gear.Tip{Dome: 10.6 * unit.Millimetre, Width: 13 * unit.Millimetre, Restitution: 0.75, Friction: 0.6}
	normal = gear.Cloth{Slide: 0.2, Roll: 0.01, SpinDecay: 10, Rebound: 0.5}
)

func between(r *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }

func randomCloth(r *rand.Rand) gear.Cloth {
	return gear.Cloth{Slide: between(r, 0.05, 0.6), Roll: between(r, 0.002, 0.05), SpinDecay: 10, Rebound: 0.5}
}

// sent is the way of a level straight hit.
func sent(v, topspin float64, cloth gear.Cloth) motion.Path {
	return motion.Run(vec.V{Y: v}, vec.V{X: -topspin * v / float64(ball.Radius)}, ball.Radius, cloth)
}
