package sitting

import (
	"math"

	"pivotbench/core/shot"
)

// gain returns the front hand's gain with the unknowns at z.
func (u SetUp) gain(z *[allUnknowns]float64) float64 { return math.Exp(u.Front * z[front]) }

// moved returns how much further to the right the cue points, in radians, because the
// front hand moves by another share than the player feels. It includes the errors of
// bridge and offset, and turns the ball's whole path.
func (u SetUp) moved(s *shot.Shot, z *[allUnknowns]float64) float64 {
	if u.Front == 0 || s.Hands.Front == 0 {
		return 0
	}
	at := u.off(u.off(*s, bridge, z[bridge]), offset, z[offset])
	felt, err := at.Hands.Apply(at.Axis(), at.Ball.Radius)
	real, realErr := at.Hands.Moved(u.gain(z)).Apply(at.Axis(), at.Ball.Radius)
	if err != nil || realErr != nil {
		return math.Pi / 2 // no cue turns that far: the stroke would have missed the table
	}
	return float64(real.Heading - felt.Heading)
}
