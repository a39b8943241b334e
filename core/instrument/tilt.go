package instrument

import (
	"errors"
	"math"

	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// ErrZero is the error of a zero that was not taken with the phone flat.
var ErrZero = errors.New("set zero with the phone flat on the cloth, face up")

// A Tilt is how a phone lies, by its motion sensor: the angles named beta and
// gamma in the W3C's Device Orientation specification, which turn a phone that
// lies flat about its short and then its long edge.
type Tilt struct{ Beta, Gamma unit.Angle }

// up returns the direction of straight up in the phone's axes: x to the right of
// its face, y to its top, z out of its face. It is the third row of the
// specification's rotation matrix.
func (t Tilt) up() vec.V {
	return vec.V{
		X: -t.Beta.Cos() * t.Gamma.Sin(),
		Y: t.Beta.Sin(),
		Z: t.Beta.Cos() * t.Gamma.Cos(),
	}
}

// mean returns the mean direction of straight up, or ErrNone.
func mean(tilts []Tilt) (vec.V, error) {
	var sum vec.V
	for _, t := range tilts {
		sum = sum.Add(t.up())
	}
	if size := sum.Norm(); size > 0 {
		return sum.Mul(1 / size), nil
	}
	return vec.V{}, ErrNone
}

// Level returns the elevation of a cue from readings of a phone that lies along
// it, long edge by the cue, either way round, and from a zero: readings taken with
// the phone flat on the cloth. The zero shows how the phone's back lies, so
// neither a camera's bump nor the sensor's bias matters, nor how far the phone
// leans over sideways. Errors: ErrNone, ErrZero.
func Level(zero, along []Tilt) (stat.Estimate[unit.Angle], error) {
	flat, err := mean(zero)
	if err != nil {
		return stat.Estimate[unit.Angle]{}, err
	}
	if flat.Z < math.Cos(float64(20*unit.Degree)) {
		return stat.Estimate[unit.Angle]{}, ErrZero
	}
	up, err := mean(along)
	if err != nil {
		return stat.Estimate[unit.Angle]{}, err
	}
	top := vec.V{Y: 1}
	edge := top.Sub(flat.Mul(top.Dot(flat)))
	rise := math.Abs(up.Dot(edge) / edge.Norm())
	return stat.Transform(pool([]reading{{math.Asin(min(1, rise)), float64(Phone)}}), raised), nil
}
