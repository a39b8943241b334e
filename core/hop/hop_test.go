package hop_test

import (
	"math"
	"math/rand/v2"

	"pivotbench/core/gear"
	"pivotbench/core/hop"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stance"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

const radius = 1.125 * unit.Inch

// inTurn selects the closed forms.
var inTurn = []float64{hop.InTurn}

// hopping returns a centre hit with the butt raised at a gap narrower than a ball.
func hopping() shot.Shot {
	return shot.Shot{
		Ball: gear.Ball{Radius: radius, Mass: 170 * unit.Gram},
		Cue: gear.Cue{
			Mass:  540 * unit.Gram,
			Tip:   gear.Tip{Dome: 10.6 * unit.Millimetre, Width: 13 * unit.Millimetre, Restitution: 0.75, Friction: 0.6},
			Pivot: 12 * unit.Inch, PivotSpin: 0.5,
		},
		Cloth:     gear.Cloth{Slide: 0.2, Roll: 0.01, SpinDecay: 10, Rebound: 0.5},
		Elevation: 40 * unit.Degree,
		Hands:     stance.Hands{Bridge: 10 * unit.Inch, Grip: 24 * unit.Inch, Back: 1},
		Speed:     14 * unit.MilePerHour,
		Dist:      36 * unit.Inch,
		Gate:      gear.Gate{Dist: 12 * unit.Inch, Gap: 2 * unit.Inch},
	}
}

func between(rng *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }

// anyHop returns any hop: elevations, contacts, cloths, and gates that may be in the way
// or not.
func anyHop(rng *rand.Rand) shot.Shot {
	s := hopping()
	s.Elevation = unit.Angle(between(rng, 5, 75)) * unit.Degree
	s.Contact = strike.Contact{Side: between(rng, -0.3, 0.3), Height: between(rng, -0.3, 0.2)}
	s.Cloth.Rebound, s.Cloth.Slide = between(rng, 0.3, 0.7), between(rng, 0.1, 0.4)
	s.Cue.Tip.Restitution = between(rng, 0.6, 0.9)
	s.Gate = gear.Gate{Dist: unit.Length(between(rng, 0.1, 0.8)), Gap: unit.Length(between(rng, 0, 0.06))}
	s.Hands.Bridge = unit.Length(between(rng, 0.15, 0.4))
	s.Speed = unit.Speed(0.3 * math.Pow(50, rng.Float64()))
	s.ByStroke = rng.IntN(2) == 0
	return s
}

func send(s shot.Shot) *motion.Path {
	var p motion.Path
	if err := s.Send(&p); err != nil {
		panic(err)
	}
	return &p
}
