package sitting

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"pivotbench/core/cues"
	"pivotbench/core/stat"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// byPivot returns the posterior weight of every step of the grid for a cue.
func (p *Posterior) byPivot(cue int) (weight [pivots]float64) {
	t := p.table(cue)
	for i, m := range p.mix {
		if t == nil {
			for k := range weight {
				weight[k] += m / pivots
			}
			continue
		}
		if m == 0 {
			continue
		}
		share := m / t.sum[i]
		for k := t.span[i][0]; k < t.span[i][1]; k++ {
			weight[k] += share * t.like[i][k]
		}
	}
	return weight
}

// place returns the position on the grid, in steps from its lower edge, below which
// a share of the weight lies.
func place(weight *[pivots]float64, share float64) float64 {
	return stat.HistogramQuantile(weight[:], share)
}

// Pivot returns a cue's natural pivot length at its reference offset, in metres.
func (p *Posterior) Pivot(cue int) stat.Summary[float64] {
	return p.follows(cue, func(pivot float64) float64 { return pivot })
}

// Squirt returns the angle between the cue's line and the ball's at the
// reference offset, in radians. The cue must have at least one stroke.
func (p *Posterior) Squirt(cue int) stat.Summary[float64] {
	return p.follows(cue, func(pivot float64) float64 {
		k, err := p.ratio(cue, pivot)
		if err != nil {
			return math.Pi / 2
		}
		return float64(strike.Deflection(p.Reference(cue), k))
	})
}

// EndMass returns a cue's end mass, in kilograms, for the ball and tip of its
// first stroke. The cue must have at least one stroke.
func (p *Posterior) EndMass(cue int) stat.Summary[float64] {
	return p.follows(cue, func(pivot float64) float64 { return math.Exp(p.logEndMass(cue, pivot)) })
}

// logEndMass returns the logarithm of the end mass, in kilograms, for a pivot
// length in metres. It returns infinity when no end mass gives that length.
func (p *Posterior) logEndMass(cue int, pivot float64) float64 {
	k, err := p.ratio(cue, pivot)
	if err != nil {
		return math.Inf(1)
	}
	return math.Log(float64(p.table(cue).first.Ball.Mass) / k)
}

// Known returns the sitting's estimate of a cue's end mass as one measurement, to be
// combined and compared with others. The caller names the sitting in Shared, whose
// parts come from a linear regression on the errors that all strokes share. It returns
// cues.ErrNone when the cue has no strokes.
func (p *Posterior) Known(cue int) (cues.EndMass, error) {
	if p.Strokes(cue) == 0 {
		return cues.EndMass{}, cues.ErrNone
	}
	mass := p.EndMass(cue)
	spread := math.Log(mass.To/mass.From) / 2 / stat.Reach90
	cov := p.covariance(cue)
	between, with := make([][]float64, cues.Causes), make([]float64, cues.Causes)
	for d := range between {
		between[d], with[d] = cov[1+d][1:], cov[0][1+d]
	}
	var share cues.Share
	if root, ok := stat.Cholesky(between); ok {
		// The parts are of independent errors, of which each stands for what those
		// before it leave. A longer pivot is a smaller end mass.
		for d, v := range root.Solve(with) {
			share.By[d] = -spread * v / math.Sqrt(cov[0][0])
		}
	}
	return cues.EndMass{Log: math.Log(mass.Median), Spread: spread, Shared: []cues.Share{share}}, nil
}

// follows returns the estimate of a monotonic function of the pivot length.
func (p *Posterior) follows(cue int, of func(pivot float64) float64) stat.Summary[float64] {
	weight := p.byPivot(cue)
	return stat.Summarize(func(share float64) float64 { return of(onGrid(place(&weight, share))) })
}

// ratio returns the ratio of ball mass to end mass for a pivot length in metres.
// It returns strike.ErrPivot when the cue has no strokes.
func (p *Posterior) ratio(cue int, pivot float64) (float64, error) {
	t := p.table(cue)
	if t == nil {
		return 0, strike.ErrPivot
	}
	first := t.first
	first.Cue.Pivot = unit.Length(pivot)
	return strike.MassRatio(first.Ball, first.Cue)
}

// Scatter returns the standard deviation of the player's direction from stroke to
// stroke, in radians.
func (p *Posterior) Scatter() stat.Summary[float64] {
	return p.shared(func(i int) float64 { return p.cloud.sigma[i] })
}

// AimBias returns the player's constant aim bias, in radians, positive to the
// right.
func (p *Posterior) AimBias() stat.Summary[float64] { return p.shared(p.cloud.bias) }

// Gain returns the front hand's gain: how far it really moves, divided by how far
// the player feels it move (see stance.Hands.Moved).
func (p *Posterior) Gain() stat.Summary[float64] {
	return p.shared(func(i int) float64 { return math.Exp(p.setUp.Front * p.cloud.free[i][front]) })
}

// shared returns the estimate of an unknown that all strokes share.
func (p *Posterior) shared(of func(i int) float64) stat.Summary[float64] {
	type at struct{ value, weight float64 }
	all := make([]at, points)
	for i := range all {
		all[i] = at{of(i), p.mix[i]}
	}
	slices.SortFunc(all, func(a, b at) int { return cmp.Compare(a.value, b.value) })
	return stat.Summarize(func(share float64) float64 {
		sum := 0.0
		for _, a := range all {
			if sum += a.weight; sum >= share {
				return a.value
			}
		}
		return all[len(all)-1].value
	})
}

// An Edge is an end of the prior range of pivot lengths.
type Edge int

// The edges.
const (
	NoEdge Edge = iota
	ShortEdge
	LongEdge
)

// A pivot length leans on an edge when more than leaningMost of its weight is
// within leaningWithin of the edge, as a share of the edge's length.
const leaningWithin, leaningMost = 0.12, 0.05

// Leans returns the edge of the prior that a cue's pivot length is piled up at, or
// NoEdge. A cue that leans on an edge is not measured: more than 5 % of the weight
// is within 12 % of the edge, and the model has no pivot lengths beyond it.
func (p *Posterior) Leans(cue int) Edge {
	if p.Strokes(cue) == 0 {
		return NoEdge
	}
	weight := p.byPivot(cue)
	switch {
	case onGrid(place(&weight, leaningMost)) < (1+leaningWithin)*float64(PivotLeast):
		return ShortEdge
	case onGrid(place(&weight, 1-leaningMost)) > float64(PivotMost)/(1+leaningWithin):
		return LongEdge
	}
	return NoEdge
}

// Density returns the posterior density of a cue's pivot length, to be plotted:
// lengths in metres, and heights relative to the largest.
func (p *Posterior) Density(cue int) (lengths, height []float64) {
	weight := p.byPivot(cue)
	top := slices.Max(weight[:])
	for k := range weight {
		weight[k] /= top
	}
	return slices.Clone(grid[:]), weight[:]
}

// A Difference compares two cues of a sitting.
type Difference struct {
	Less  float64               // the probability that the first squirts less than the second
	Ratio stat.Summary[float64] // end mass of the first divided by that of the second
}

// Compare compares two cues of the sitting. They share the player and the set-up,
// so their difference is known more precisely than either value.
func (p *Posterior) Compare(a, b int) Difference {
	draws := p.draws()
	logs := make([]float64, len(draws))
	d := Difference{}
	for i, draw := range draws {
		logs[i] = p.logEndMass(a, draw.pivot(p, a)) - p.logEndMass(b, draw.pivot(p, b))
		if logs[i] < 0 {
			d.Less += 1 / float64(len(draws))
		}
	}
	slices.Sort(logs)
	d.Ratio = stat.Summarize(func(share float64) float64 {
		return math.Exp(logs[min(int(share*float64(len(logs))), len(logs)-1)])
	})
	return d
}

// A draw is one sample of all unknowns from the posterior: a point of the cloud,
// and for each cue the cumulative share of its row at which its pivot length lies.
type draw struct {
	point int
	share []float64
}

// sharePrimes are the bases of the Halton sequence for the cues' shares. They
// differ from primes, because two coordinates with the same base are correlated.
var sharePrimes = []int{23, 29, 31, 37, 41, 43}

// evenShares returns the shares of all draws. They are the same every time.
var evenShares = sync.OnceValue(func() [][]float64 { return stat.Halton(points, sharePrimes, 0) })

// draws returns as many draws as the cloud has points.
func (p *Posterior) draws() []draw {
	out := make([]draw, 0, points)
	shares := evenShares()
	sum := 0.0
	for i, m := range p.mix {
		for sum += m; float64(len(out))+0.5 < sum*points && len(out) < points; {
			u := shares[len(out)]
			out = append(out, draw{i, u})
		}
	}
	for len(out) < points { // rounding may leave the list short
		out = append(out, draw{points - 1, shares[len(out)]})
	}
	return out
}

// pivot returns a cue's pivot length in the draw, in metres.
func (d draw) pivot(p *Posterior, cue int) float64 {
	u := d.share[cue%len(d.share)]
	t := p.table(cue)
	if t == nil {
		return onGrid(u * pivots)
	}
	share, sum := u*t.sum[d.point], 0.0
	for k, l := range t.like[d.point] {
		if sum+l >= share && l > 0 {
			return onGrid(float64(k) + (share-sum)/l)
		}
		sum += l
	}
	return float64(PivotMost)
}
