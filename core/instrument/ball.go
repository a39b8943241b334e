package instrument

import (
	"errors"
	"math"

	"pivotbench/core/gear"
	"pivotbench/core/unit"
)

// What keeps a reading from being a ball's.
var (
	ErrBall = errors.New("no ball is that size, 40 to 80 mm across: check the reading, its unit and how it was taken")
	ErrMass = errors.New("no ball is that heavy, 80 to 300 g")
)

// Diameter is a ball's, by a caliper across it or by a tape round it. Errors:
// ErrBall.
func Diameter(x unit.Length, round bool) (Estimate[unit.Length], error) {
	sd := caliper
	if round {
		x, sd = x/math.Pi, around/math.Pi
	}
	if !(x >= 40*unit.Millimetre && x <= 80*unit.Millimetre) {
		return Estimate[unit.Length]{}, ErrBall
	}
	mean, from, to := pool([]reading{{float64(x), float64(sd)}})
	return Estimate[unit.Length]{unit.Length(mean), unit.Length(from), unit.Length(to), 1}, nil
}

// Weighed is a ball's mass by kitchen scales. Errors: ErrMass.
func Weighed(m unit.Mass) (Estimate[unit.Mass], error) {
	if !(m >= 80*unit.Gram && m <= 300*unit.Gram) {
		return Estimate[unit.Mass]{}, ErrMass
	}
	mean, from, to := pool([]reading{{float64(m), float64(kitchen)}})
	return Estimate[unit.Mass]{unit.Mass(mean), unit.Mass(from), unit.Mass(to), 1}, nil
}

// A Fit is what an interval says about limits.
type Fit int

// The fits.
const (
	Unsure  Fit = iota // a limit is inside the interval: a finer reading would tell
	Within             // the whole interval is within the limits
	Outside            // none of it is
)

// FitOf holds an estimate against limits.
func FitOf[T ~float64](e Estimate[T], r gear.Range[T]) Fit {
	switch {
	case e.From >= r.From && e.To <= r.To:
		return Within
	case e.To < r.From || e.From > r.To:
		return Outside
	}
	return Unsure
}
