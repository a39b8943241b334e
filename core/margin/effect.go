package margin

import (
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// An Input is a quantity that the arrival at the target depends on.
type Input int

// The inputs.
const (
	Bridge   Input = iota
	TipSide        // as the hands dial it
	TipStray       // during the stroke, about the planted bridge hand
	TipHeight
	Speed
	Elevation
	Pivot
	inputs // number of inputs
)

// Inputs lists all inputs.
var Inputs = []Input{Bridge, TipSide, TipStray, TipHeight, Speed, Elevation, Pivot}

// nudge changes an input of a shot by an amount in SI. The amount is a length for the tip
// inputs.
func nudge(s *shot.Shot, in Input, by float64) {
	switch in {
	case Bridge:
		s.Hands.Bridge += unit.Length(by)
	case TipSide:
		s.Contact.Side += by / float64(s.Ball.Radius)
	case TipStray:
		wander(s, unit.Length(by))
	case TipHeight:
		s.Contact.Height += by / float64(s.Ball.Radius)
	case Speed:
		s.Speed += unit.Speed(by)
	case Elevation:
		s.Elevation += unit.Angle(by)
	case Pivot:
		s.Cue.Pivot += unit.Length(by)
	}
}

// steps are the steps of the difference quotients, in SI: far above the rounding errors
// of a path, and far below the scale on which its curvature matters.
var steps = [inputs]float64{Bridge: 1e-5, TipSide: 1e-6, TipStray: 1e-6, TipHeight: 1e-6, Speed: 1e-5, Elevation: 1e-6, Pivot: 1e-5}

// Slope returns the derivative of the sideways arrival at the target with respect to an
// input, in metres per SI unit of it (a metre of bridge, tip offset or pivot length, a
// metre per second, a radian). Either change of the
// tip's side also turns the cue: TipSide by the hands' shares, TipStray about the bridge.
// The error says why the shot, or one next to it, does not
// arrive.
func Slope(s *shot.Shot, in Input) (float64, error) {
	var x [2]float64
	h := steps[in]
	for i, by := range [2]float64{-h, h} {
		near := *s
		nudge(&near, in, by)
		var path motion.Path
		if err := near.Send(&path); err != nil {
			return 0, err
		}
		var err error
		if x[i], err = arrival(&near, &path); err != nil {
			return 0, err
		}
	}
	return (x[1] - x[0]) / (2 * h), nil
}
