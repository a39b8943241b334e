package trial

import (
	"math"
	"slices"

	"pivotbench/core/stat"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// summarize returns the summary of a quantity that rises or falls along a grid.
// value gives the quantity at a place on the grid, in cells from its lower edge.
func summarize(value func(at float64) float64, weight []float64) stat.Summary[float64] {
	return stat.Summarize(func(p float64) float64 { return value(stat.HistogramQuantile(weight, p)) })
}

// onLog returns the value at a place on a logarithmic grid.
func onLog(grid []float64) func(float64) float64 {
	step := math.Log(grid[1] / grid[0])
	return func(at float64) float64 { return grid[0] * math.Exp(step*(at-0.5)) }
}

// onEven returns the value at a place on an even grid.
func onEven(grid []float64) func(float64) float64 {
	step := grid[1] - grid[0]
	return func(at float64) float64 { return grid[0] + step*(at-0.5) }
}

// Pivot returns the natural pivot length at the tries' reference offset, in metres.
func (p *Posterior) Pivot() stat.Summary[float64] { return summarize(onLog(p.pivot[:]), p.byPivot[:]) }

// Scatter returns the standard deviation of the shooter's direction, in radians.
func (p *Posterior) Scatter() stat.Summary[float64] {
	return summarize(onLog(p.scatter[:]), p.byScatter[:])
}

// AimError returns the shooter's constant aim error, in radians, positive to the
// right.
func (p *Posterior) AimError() stat.Summary[float64] {
	return summarize(onEven(p.aim[:]), p.byAim[:])
}

// Reference returns the contact offset, in ball radii, that the pivot length is for:
// that of the first try. It is 0 before that.
func (p *Posterior) Reference() float64 {
	if len(p.tries) == 0 {
		return 0
	}
	return p.tries[0].Shot.Cue.PivotSpin
}

// Squirt returns the angle of squirt at the reference offset, in radians. It needs a
// try.
func (p *Posterior) Squirt() stat.Summary[float64] {
	pivot := onLog(p.pivot[:])
	return summarize(func(at float64) float64 {
		k, err := p.ratio(pivot(at))
		if err != nil {
			return math.Pi / 2
		}
		return float64(strike.Deflection(p.Reference(), k))
	}, p.byPivot[:])
}

// EndMass returns the cue's end mass, in kilograms, from the first try's ball and
// tip. It needs a try.
func (p *Posterior) EndMass() stat.Summary[float64] {
	pivot := onLog(p.pivot[:])
	return summarize(func(at float64) float64 {
		k, err := p.ratio(pivot(at))
		if err != nil {
			return math.Inf(1)
		}
		return float64(p.tries[0].Shot.Ball.Mass) / k
	}, p.byPivot[:])
}

// ratio returns ball mass over end mass for a pivot length in metres.
func (p *Posterior) ratio(pivot float64) (float64, error) {
	if len(p.tries) == 0 {
		return 0, strike.ErrPivot
	}
	first := p.tries[0].Shot
	first.Cue.Pivot = unit.Length(pivot)
	return strike.MassRatio(first.Ball, first.Cue)
}

// Density returns the posterior density of the pivot length: lengths in metres, and
// the density at each as a share of the greatest.
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

// N returns the number of tries in the posterior.
func (p *Posterior) N() int { return len(p.tries) }
