package sitting

import (
	"math"
	"slices"

	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// flat is the prior of a cue about which nothing is known: log-uniform.
var flat = func() (out [pivots]float64) {
	for k := range out {
		out[k] = 1
	}
	return out
}()

// WithCue returns the posterior with a cue that was measured before, apart from its
// strokes here, if it has any. s has its ball, tip and reference offset, and pivot is its
// natural pivot length there: its logarithm is taken as Normal, with 90 % in the interval.
// A length beyond the grid is moved to its end.
func (p *Posterior) WithCue(cue int, s *shot.Shot, pivot stat.Estimate[unit.Length]) *Posterior {
	next := *p
	next.cues = slices.Clone(p.cues)
	for len(next.cues) <= cue {
		next.cues = append(next.cues, nil)
	}
	const least = 0.02 // a prior much narrower than the grid's steps would fall between them
	middle := min(max(float64(pivot.Median), grid[0]), grid[pivots-1])
	spread := max(math.Log(float64(pivot.To/pivot.From))/2/stat.Reach90, least)
	prior, sum := new([pivots]float64), 0.0
	for k, at := range grid {
		prior[k] = stat.NormalDensity(math.Log(at/middle) / spread)
		sum += prior[k]
	}
	for k := range prior {
		prior[k] *= pivots / sum
	}
	t := &table{}
	if old := p.table(cue); old != nil {
		*t = *old
		t.multiply(prior)
	} else {
		t.start(s, prior, alive(prior[:], slices.Max(prior[:])))
	}
	next.cues[cue] = t
	next.normalize()
	return &next
}

// multiply multiplies the prior of a cue, and what its strokes made of it.
func (t *table) multiply(by *[pivots]float64) {
	prior := *t.prior
	for k := range prior {
		prior[k] *= by[k]
	}
	t.prior = &prior
	for i := range t.like {
		t.sum[i] = 0
		for k := t.span[i][0]; k < t.span[i][1]; k++ {
			t.like[i][k] *= by[k]
			t.sum[i] += t.like[i][k]
		}
	}
}

// unplayed returns the distribution before the first stroke, with the cues that were
// known before.
func (p *Posterior) unplayed() *Posterior {
	q := Prior(p.setUp)
	q.memo = p.memo
	q.cues = make([]*table, len(p.cues))
	for c, t := range p.cues {
		if t != nil && t.prior != &flat {
			q.cues[c] = &table{}
			q.cues[c].start(&t.first, t.prior, alive(t.prior[:], slices.Max(t.prior[:])))
		}
	}
	q.normalize()
	return q
}

// Testers returns an even sample of n draws from the posterior, each a tester who plays
// one cue. Each is as probable as any other, and together they carry how the unknowns
// depend on each other. After several sittings their set-up errors are the mean of
// those of all strokes.
func (p *Posterior) Testers(cue, n int) []Tester {
	// Each draw is from a part of the list of its own. Its place in the part varies from
	// part to part, evenly: the points come from sequences in prime bases, and every
	// eighth point of one in base 2 lies on one eighth of its axis.
	draws, shares := p.draws(), p.bySitting()
	out := make([]Tester, n)
	for i := range out {
		_, place := math.Modf(math.Phi * float64(i))
		d := draws[int((float64(i)+place)*float64(len(draws))/float64(n))]
		out[i] = Tester{
			Pivot:   unit.Length(d.pivot(p, cue)),
			Scatter: unit.Angle(p.cloud.sigma[d.point]),
			Aim:     unit.Angle(p.cloud.bias(d.point)),
			Front:   p.setUp.Front * p.cloud.free[d.point][front],
		}
		for s, share := range shares {
			for e := range out[i].Errors {
				out[i].Errors[e] += share * p.cloud.of[s].z[d.point][e]
			}
		}
	}
	return out
}

// bySitting returns the share of the strokes that each sitting has. Without strokes the
// first sitting has all.
func (p *Posterior) bySitting() []float64 {
	shares := make([]float64, len(p.cloud.of))
	if p.N() == 0 {
		shares[0] = 1
		return shares
	}
	for i := range p.strokes {
		shares[p.strokes[i].Sitting]++
	}
	for s := range shares {
		shares[s] /= float64(p.N())
	}
	return shares
}
