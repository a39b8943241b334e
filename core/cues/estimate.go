// Package cues is about several cues: what the measurements of each say together,
// how two of them differ, what a player has to relearn from one to the other, and
// which one suits a player's hands.
package cues

import (
	"errors"
	"math"

	"pivotbench/core/gear"
	"pivotbench/core/stat"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// Errors of measurements.
var (
	ErrNone     = errors.New("not measured yet")
	ErrInterval = errors.New("the pivot length must lie within its interval")
)

// Assumed is half the 90 % interval of a pivot length that was given without one,
// as a share of the length: common practice, no source.
const Assumed = 0.1

// An EndMass is what is known of a cue's end mass, and so of how much it squirts:
// a log-normal distribution. End mass, unlike pivot length, belongs to the cue
// alone, so pivot lengths measured at different offsets or with different balls
// can be combined. It is log-normal since it can't be negative and since the error
// of a measurement is a share of it.
type EndMass struct {
	Log    float64 // natural logarithm of the median in kilograms
	Spread float64 // standard deviation of the logarithm
	Shared []Share // the parts of the error that other measurements have too
}

// leastSpread keeps an interval of no width from outweighing all others: no pivot
// length is known better than to about 1 %.
const leastSpread = 0.005

// Measured returns the end mass of a cue whose Pivot at PivotSpin was measured with
// a ball, with a 90 % interval from one length to another. An interval of 0 to 0
// is unknown, and Assumed is taken for it. An end that has no end mass, such as
// +Inf, is taken to be as far away as the other. Errors: ErrInterval, and those of
// strike.MassRatio.
func Measured(ball gear.Ball, cue gear.Cue, from, to unit.Length) (EndMass, error) {
	if from == 0 && to == 0 {
		from, to = cue.Pivot/(1+Assumed), cue.Pivot*(1+Assumed)
	}
	if !(from <= cue.Pivot && cue.Pivot <= to) {
		return EndMass{}, ErrInterval
	}
	mid, err := logEndMass(ball, cue, cue.Pivot)
	if err != nil {
		return EndMass{}, err
	}
	sum, ends := 0.0, 0.0
	for _, end := range []unit.Length{from, to} {
		if log, err := logEndMass(ball, cue, end); err == nil {
			sum += math.Abs(log - mid)
			ends++
		}
	}
	if ends == 0 {
		return EndMass{}, ErrInterval
	}
	return EndMass{Log: mid, Spread: max(sum/ends/stat.Reach90, leastSpread)}, nil
}

func logEndMass(ball gear.Ball, cue gear.Cue, pivot unit.Length) (float64, error) {
	cue.Pivot = pivot
	k, err := strike.MassRatio(ball, cue)
	return math.Log(float64(ball.Mass) / k), err
}

// Estimate returns the estimate of the end mass itself.
func (e EndMass) Estimate() stat.Estimate[unit.Mass] {
	return stat.Transform(stat.NormalEstimate(e.Log, e.Spread), func(log float64) unit.Mass { return unit.Mass(math.Exp(log)) })
}

// Pivot returns the natural pivot length at a contact offset, in ball radii.
func (e EndMass) Pivot(ball gear.Ball, tip gear.Tip, rho float64) stat.Estimate[unit.Length] {
	return stat.Transform(e.Estimate(), func(m unit.Mass) unit.Length {
		return strike.NaturalPivot(rho, float64(ball.Mass/m), ball, tip)
	})
}

// Squirt returns the angle of squirt at a contact offset, in ball radii.
func (e EndMass) Squirt(ball gear.Ball, rho float64) stat.Estimate[unit.Angle] {
	return stat.Transform(e.Estimate(), func(m unit.Mass) unit.Angle {
		return strike.Deflection(rho, float64(ball.Mass/m))
	})
}
