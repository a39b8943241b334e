package instrument

import (
	"errors"
	"math"

	"pivotbench/core/unit"
)

// What keeps a tip's profile from being a dome.
var (
	ErrFlat  = errors.New("the tip is flat: its dome has no height")
	ErrPeak  = errors.New("a dome is at most as high as half its width")
	ErrWidth = errors.New("a tip is 5 to 20 mm wide")
)

// widest is a radius beyond that of any tip: such a dome is flat to the eye.
const widest = unit.Metre

// A Dome is a tip seen from the side: how wide it is, and how high it rises
// from its edge to its middle.
type Dome struct{ Width, Rise unit.Length }

// Radius is that of the sphere the dome is a part of:
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

// Estimate is the radius with the interval of the two readings. A shallow dome's
// curvature, 1/r = 2s/(w²/4 + s²), goes straight with its rise, so that is what
// has the Normal error.
func (d Dome) Estimate() (Estimate[unit.Length], error) {
	r, err := d.Radius()
	if err != nil {
		return Estimate[unit.Length]{}, err
	}
	perWidth := float64(d.Width / (4 * d.Rise)) // dr/dw
	perRise := 0.5 - float64(d.Width*d.Width/(8*d.Rise*d.Rise))
	sd := math.Hypot(perWidth, perRise) * float64(profile/(r*r))
	curved, least, most := pool([]reading{{1 / float64(r), sd}})
	flattest := 1 / float64(widest)
	return Estimate[unit.Length]{
		unit.Length(1 / curved), unit.Length(1 / most), unit.Length(1 / max(least, flattest)), 1,
	}, nil
}
