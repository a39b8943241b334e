package trial

import (
	"math"
	"slices"

	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// An Interval holds the truth with the chance it is given for, were the truth
// drawn from the priors.
type Interval struct{ From, To float64 }

// An Estimate is a quantity's median with its 50 and 90 % intervals, in SI.
type Estimate struct {
	Median float64
	Half   Interval // 50 %
	Most   Interval // 90 %
}

// Within says whether the 90 % interval is within so much of the median, as a
// share of it, on either side.
func (e Estimate) Within(share float64) bool {
	return e.Most.From >= (1-share)*e.Median && e.Most.To <= (1+share)*e.Median
}

// estimate reads an estimate off a distribution: the values in rising order,
// each the middle of a step of its weight.
func estimate(value func(at float64) float64, weight []float64) Estimate {
	q := func(p float64) float64 { return value(quantile(weight, p)) }
	e := Estimate{q(0.5), Interval{q(0.25), q(0.75)}, Interval{q(0.05), q(0.95)}}
	return e.rising()
}

// rising turns the intervals of a quantity that falls as the grid rises.
func (e Estimate) rising() Estimate {
	if e.Most.From > e.Most.To {
		e.Half = Interval{e.Half.To, e.Half.From}
		e.Most = Interval{e.Most.To, e.Most.From}
	}
	return e
}

// quantile is the place on a grid, in steps from the lower edge of its first,
// below which a share of the weight lies.
func quantile(weight []float64, p float64) float64 {
	sum := 0.0
	for i, w := range weight {
		if sum+w >= p && w > 0 {
			return float64(i) + (p-sum)/w
		}
		sum += w
	}
	return float64(len(weight))
}

// onLog reads a place on a logarithmic grid.
func onLog(grid []float64) func(float64) float64 {
	step := math.Log(grid[1] / grid[0])
	return func(at float64) float64 { return grid[0] * math.Exp(step*(at-0.5)) }
}

// onEven reads a place on an even grid.
func onEven(grid []float64) func(float64) float64 {
	step := grid[1] - grid[0]
	return func(at float64) float64 { return grid[0] + step*(at-0.5) }
}

// Pivot is the natural pivot length at the tries' reference offset, in metres.
func (p *Posterior) Pivot() Estimate { return estimate(onLog(p.pivot[:]), p.byPivot[:]) }

// Scatter is the shooter's own, an angle in radians.
func (p *Posterior) Scatter() Estimate {
	return estimate(onLog(p.scatter[:]), p.byScatter[:])
}

// AimError is the shooter's constant aim error, in radians, positive to the
// right.
func (p *Posterior) AimError() Estimate {
	return estimate(onEven(p.aim[:]), p.byAim[:])
}

// Reference is the contact offset, in ball radii, at which the pivot length is
// told: that of the first try. 0: there is none yet.
func (p *Posterior) Reference() float64 {
	if len(p.tries) == 0 {
		return 0
	}
	return p.tries[0].Shot.Cue.PivotSpin
}

// Squirt is α at the reference offset, in radians: what a pivot length means.
// It takes a try to say.
func (p *Posterior) Squirt() Estimate {
	pivot := onLog(p.pivot[:])
	return estimate(func(at float64) float64 {
		k, err := p.ratio(pivot(at))
		if err != nil {
			return math.Pi / 2
		}
		return float64(strike.Deflection(p.Reference(), k))
	}, p.byPivot[:])
}

// EndMass is the cue's, in kilograms, by the first try's ball and tip. It takes
// a try to say.
func (p *Posterior) EndMass() Estimate {
	pivot := onLog(p.pivot[:])
	return estimate(func(at float64) float64 {
		k, err := p.ratio(pivot(at))
		if err != nil {
			return math.Inf(1)
		}
		return float64(p.tries[0].Shot.Ball.Mass) / k
	}, p.byPivot[:])
}

// ratio is ball mass over end mass for a pivot length in metres.
func (p *Posterior) ratio(pivot float64) (float64, error) {
	if len(p.tries) == 0 {
		return 0, strike.ErrPivot
	}
	first := p.tries[0].Shot
	first.Cue.Pivot = unit.Length(pivot)
	return strike.MassRatio(first.Ball, first.Cue)
}

// Density is the posterior of the pivot length as a picture: lengths in metres
// and how likely each is, relative to the likeliest.
func (p *Posterior) Density() (lengths, height []float64) {
	weight := p.byPivot
	top := 0.0
	for _, w := range weight {
		top = max(top, w)
	}
	for i := range weight {
		weight[i] /= top
	}
	return slices.Clone(p.pivot[:]), weight[:]
}

// N is how many tries are in it.
func (p *Posterior) N() int { return len(p.tries) }
