package margin

import (
	"math"

	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// MostMiscues is the share of strokes that may miscue on a suggested shot.
const MostMiscues = 0.01

// sideSteps is the number of steps of english in a ball radius. A step is about a tenth
// of the width of a common tip, which is as fine as anybody can set up.
const sideSteps = 20

// Miscues returns the probability that a shot miscues, or that the edge of the tip
// meets the ball, when the tip lands with a standard deviation of tip both
// sideways and in height. Errors: strike.ErrPivot.
//
// The tip grips inside a circle about the ball's centre, whose radius is
// strike.LastOffset. The Normal density is integrated over that circle: over the
// height in closed form, over the side by the midpoint rule.
func Miscues(s *shot.Shot, tip unit.Length) (float64, error) {
	k, err := strike.MassRatio(s.Ball, s.Cue)
	if err != nil {
		return 0, err
	}
	return outside(s.Contact, strike.LastOffset(k, s.Cue.Tip), float64(tip/s.Ball.Radius)), nil
}

// outside returns the probability that a point scattered by sd about a contact lies
// further out than most. All are in ball radii.
func outside(at strike.Contact, most, sd float64) float64 {
	if !(sd > 0) {
		if at.Offset() <= most {
			return 0
		}
		return 1
	}
	const reach = 8 // standard deviations; the density beyond is negligible
	from, to := max(-most, at.Side-reach*sd), min(most, at.Side+reach*sd)
	if from >= to {
		return 1
	}
	// The substitution x = mid + half sin φ makes the ends of the half chord smooth.
	const steps = 200
	mid, half, inside := (from+to)/2, (to-from)/2, 0.0
	for i := range steps {
		sin, cos := math.Sincos(math.Pi * ((float64(i)+0.5)/steps - 0.5))
		x := mid + half*sin
		chord, z := math.Sqrt(max(0, most*most-x*x)), (x-at.Side)/sd
		inside += half * cos * stat.NormalDensity(z) * (stat.Normal((chord-at.Height)/sd) - stat.Normal((-chord-at.Height)/sd))
	}
	return max(0, 1-inside*math.Pi/steps/sd)
}

// PlayableSide returns the most english, in whole steps, that a player can play
// with this cue at this height while no more than MostMiscues of the strokes
// miscue. It is 0 if there is none, and has no sign. Errors: strike.ErrPivot.
func PlayableSide(s *shot.Shot, tip unit.Length) (float64, error) {
	at := *s
	for n := 1; ; n++ {
		at.Contact.Side = float64(n) / sideSteps
		switch share, err := Miscues(&at, tip); {
		case err != nil:
			return 0, err
		case share > MostMiscues:
			return float64(n-1) / sideSteps, nil
		}
	}
}
