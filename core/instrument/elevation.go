package instrument

import (
	"errors"
	"math"

	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// Errors of two heights.
var (
	ErrApart    = errors.New("measure at two places at least 5 cm apart along the cue")
	ErrSteep    = errors.New("the heights differ by more than the distance between them: check their units")
	ErrButtDown = errors.New("the butt would be lower than the tip: did you swap the two heights?")
)

// Heights are two tape readings of a cue: from the cloth up to the cue's
// underside, at two places along it.
type Heights struct {
	Tip, Butt           unit.Length // heights at the place nearer the tip and at the one nearer the butt
	Apart               unit.Length // distance between the two places, along the cue
	TipThick, ButtThick unit.Length // the cue's diameter there; both 0: the heights are to its middle
}

// Elevation returns the angle of the cue's axis above the cloth. The underside lies
// half a thickness below the axis, square to it, so with h and w the
// differences of the heights and of the half thicknesses
//
//	d sin θ − w cos θ = h
//
// Errors: ErrApart, ErrSteep, ErrButtDown.
func (h Heights) Elevation() (unit.Angle, error) {
	e, err := h.Estimate()
	return e.Median, err
}

// Estimate returns the elevation with its interval, which does not go below level.
// A butt that is lower than the tip by no more than the tape's error is level.
func (h Heights) Estimate() (stat.Estimate[unit.Angle], error) {
	const least = 5 * unit.Centimetre
	if !(h.Apart >= least) {
		return stat.Estimate[unit.Angle]{}, ErrApart
	}
	w := float64(h.ButtThick-h.TipThick) / 2
	reach := math.Hypot(float64(h.Apart), w)
	sin := float64(h.Butt-h.Tip) / reach
	if !(math.Abs(sin) < 1) {
		return stat.Estimate[unit.Angle]{}, ErrSteep
	}
	at := func(sin float64) float64 {
		return math.Asin(max(-1, min(1, sin))) + math.Atan2(w, float64(h.Apart))
	}
	// The errors of two heights and of the distance along the cue are Normal in the
	// sine, not in a steep angle.
	sd := math.Hypot(math.Sqrt2*float64(height), math.Sin(at(sin))*float64(tape)) / reach
	angle := stat.Transform(pool([]reading{{sin, sd}}), at)
	if angle.To < 0 {
		return stat.Estimate[unit.Angle]{}, ErrButtDown
	}
	return stat.Transform(angle, raised), nil
}

// raised is an elevation in radians, never below level.
func raised(angle float64) unit.Angle { return unit.Angle(max(0, angle)) }
