package instrument

import (
	"errors"
	"math"

	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// Errors of readings of a ball.
var (
	ErrBall = errors.New("no ball is that size: balls are 40 to 80 mm across. Check the reading and its unit")
	ErrMass = errors.New("no ball has that mass: balls are 80 to 300 g. Check the reading and its unit")
)

// Diameter returns the diameter of a ball from a reading across it, by a caliper,
// or round it, by a tape. Errors: ErrBall.
func Diameter(x unit.Length, round bool) (stat.Estimate[unit.Length], error) {
	sd := caliper
	if round {
		x, sd = x/math.Pi, around/math.Pi
	}
	if !(x >= 40*unit.Millimetre && x <= 80*unit.Millimetre) {
		return stat.Estimate[unit.Length]{}, ErrBall
	}
	return stat.Transform(pool([]reading{{float64(x), float64(sd)}}), of[unit.Length]), nil
}

// Weighed returns the mass of a ball from a reading of kitchen scales. Errors:
// ErrMass.
func Weighed(m unit.Mass) (stat.Estimate[unit.Mass], error) {
	if !(m >= 80*unit.Gram && m <= 300*unit.Gram) {
		return stat.Estimate[unit.Mass]{}, ErrMass
	}
	return stat.Transform(pool([]reading{{float64(m), float64(kitchen)}}), of[unit.Mass]), nil
}

// A Fit is how an interval lies to the limits of a standard.
type Fit int

// The fits.
const (
	Unsure  Fit = iota // a limit is inside the interval: a finer reading would tell
	Within             // the whole interval is within the limits
	Outside            // the whole interval is outside them
)

// FitOf compares an estimate with limits.
func FitOf[T ~float64](e stat.Estimate[T], limits stat.Interval[T]) Fit {
	switch {
	case limits.Covers(e.Interval):
		return Within
	case !limits.Meets(e.Interval):
		return Outside
	}
	return Unsure
}
