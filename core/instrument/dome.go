package instrument

import (
	"errors"
	"math"

	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// Errors of readings of a tip.
var (
	ErrFlat  = errors.New("the rise must be more than 0: this tip would be flat")
	ErrPeak  = errors.New("the rise must be at most half the width")
	ErrWidth = errors.New("the width must be 5 to 20 mm")
)

// widest is a larger radius than any tip has: such a dome looks flat.
const widest = unit.Metre

// A Dome is a tip seen from the side: how wide it is, and how high it rises
// from its edge to its middle.
type Dome struct{ Width, Rise unit.Length }

// Radius returns the radius of the sphere that the dome is a part of:
//
//	r = (w²/4 + s²)/(2s)
//
// Errors: ErrWidth, ErrFlat, ErrPeak.
func (d Dome) Radius() (unit.Length, error) {
	switch {
	case !(d.Width >= 5*unit.Millimetre && d.Width <= 20*unit.Millimetre):
		return 0, ErrWidth
	case !(d.Rise > 0):
		return 0, ErrFlat
	case d.Rise > d.Width/2:
		return 0, ErrPeak
	}
	return (d.Width*d.Width/4 + d.Rise*d.Rise) / (2 * d.Rise), nil
}

// Estimate returns the radius with the interval that the two readings leave. The
// curvature of a shallow dome, 1/r = 2s/(w²/4 + s²), is nearly proportional to its
// rise, so the curvature is what has the Normal error.
func (d Dome) Estimate() (stat.Estimate[unit.Length], error) {
	r, err := d.Radius()
	if err != nil {
		return stat.Estimate[unit.Length]{}, err
	}
	perWidth := float64(d.Width / (4 * d.Rise)) // dr/dw
	perRise := 0.5 - float64(d.Width*d.Width/(8*d.Rise*d.Rise))
	sd := math.Hypot(perWidth, perRise) * float64(profile/(r*r))
	const flattest = 1 / float64(widest)
	return stat.Transform(pool([]reading{{1 / float64(r), sd}}), func(curvature float64) unit.Length {
		return unit.Length(1 / max(curvature, flattest))
	}), nil
}
