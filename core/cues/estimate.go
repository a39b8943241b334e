// Package cues is a rack of cues: what the measurements of each say together,
// how two of them differ, what a player has to relearn from one to the other,
// and which suits his hands.
package cues

import (
	"errors"
	"math"

	"pivotbench/core/gear"
	"pivotbench/core/stat"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// What makes a measurement one that can't be used.
var (
	ErrNone     = errors.New("there is no measurement yet")
	ErrInterval = errors.New("the interval of a pivot length must hold it")
)

// Assumed is how far a pivot length with no interval is taken to be good to
// either side, as a share of it, nine times of ten: common practice, no
// source.
const Assumed = 0.1

// An Estimate is what is known of how much a cue squirts, as its end mass: the
// logarithm of it is Normal. End mass, and not pivot length, since that
// belongs to the cue alone: lengths measured at other offsets or with other
// balls can be put together. The logarithm, since end mass can't be negative
// and since a measurement is good to a share of it.
type Estimate struct {
	Log    float64 // of the median end mass in kilograms
	Spread float64 // one standard deviation of Log
	Shared float64 // the part of Spread that all measurements by this player with these tools have alike
}

// A Band is a median with its 90 % interval.
type Band[T ~float64] struct{ Median, From, To T }

// leastSpread keeps an interval of no width from outweighing all others: no
// pivot length is known better than to about a hundredth.
const leastSpread = 0.005

// Measured is the estimate of a pivot length that was measured, with its 90 %
// interval, on a ball by a cue whose Pivot and PivotSpin it is. An interval of
// 0 to 0 is not known, and Assumed. An end without an end mass, such as +Inf,
// says nothing: the other is taken to be as far away.
func Measured(ball gear.Ball, cue gear.Cue, from, to unit.Length) (Estimate, error) {
	if from == 0 && to == 0 {
		from, to = cue.Pivot/(1+Assumed), cue.Pivot*(1+Assumed)
	}
	if !(from <= cue.Pivot && cue.Pivot <= to) {
		return Estimate{}, ErrInterval
	}
	mid, err := logEndMass(ball, cue, cue.Pivot)
	if err != nil {
		return Estimate{}, err
	}
	sum, ends := 0.0, 0.0
	for _, end := range []unit.Length{from, to} {
		if log, err := logEndMass(ball, cue, end); err == nil {
			sum += math.Abs(log - mid)
			ends++
		}
	}
	if ends == 0 {
		return Estimate{}, ErrInterval
	}
	return Estimate{Log: mid, Spread: max(sum/ends/stat.Reach90, leastSpread)}, nil
}

func logEndMass(ball gear.Ball, cue gear.Cue, pivot unit.Length) (float64, error) {
	cue.Pivot = pivot
	k, err := strike.MassRatio(ball, cue)
	return math.Log(float64(ball.Mass) / k), err
}

// band is a quantity that follows from the end mass.
func band[T ~float64](e Estimate, of func(unit.Mass) T) Band[T] {
	at := func(z float64) T { return of(unit.Mass(math.Exp(e.Log + z*e.Spread))) }
	a, b := at(-stat.Reach90), at(stat.Reach90)
	return Band[T]{Median: at(0), From: min(a, b), To: max(a, b)}
}

// EndMass is the cue's end mass.
func (e Estimate) EndMass() Band[unit.Mass] {
	return band(e, func(m unit.Mass) unit.Mass { return m })
}

// Pivot is the natural pivot length at a contact offset, in ball radii.
func (e Estimate) Pivot(ball gear.Ball, tip gear.Tip, rho float64) Band[unit.Length] {
	return band(e, func(m unit.Mass) unit.Length {
		return strike.NaturalPivot(rho, float64(ball.Mass/m), ball, tip)
	})
}

// Squirt is the angle between the cue's line and the ball's at a contact
// offset, in ball radii.
func (e Estimate) Squirt(ball gear.Ball, rho float64) Band[unit.Angle] {
	return band(e, func(m unit.Mass) unit.Angle {
		return strike.Deflection(rho, float64(ball.Mass/m))
	})
}

// apart is one standard deviation of how much two measurements differ when what
// they measured does not: what they share cancels.
func apart(a, b Estimate) float64 {
	return math.Sqrt(max(a.Spread*a.Spread+b.Spread*b.Spread-2*a.Shared*b.Shared, leastSpread*leastSpread))
}

// Less is the chance that a cue deflects less than another.
func Less(a, b Estimate) float64 { return stat.Normal((b.Log - a.Log) / apart(a, b)) }
