package sitting

import (
	"cmp"
	"math"
	"slices"

	"pivotbench/core/shot"
	"pivotbench/core/stat"
)

// bins is into how many groups of equal probability the pivot length is put, and
// each how many possibilities a group has, to weigh what a stroke would tell.
const bins, each = 16, 24

// straightBelow is the half width of the 90 % interval, as a share of the pivot
// length, below which a stroke's place follows the unknowns in a straight line,
// and what it tells has a closed form.
const straightBelow = 0.2

// Next returns the choices in the order of what they are expected to tell about
// a cue's pivot length, the most telling first: the mutual information between
// what is seen and the logarithm of the pivot length, all else that is unknown
// averaged over. None: no choice sends a ball to its line.
//
// Source: Kontsevich and Tyler, Vision Research 39 (1999) 2729. For a mark, both
// entropies are those of Normal distributions of the same variance.
func (p *Posterior) Next(cue int, s *shot.Shot, c *Choice) []Suggestion {
	prospects := p.prospects(cue, s, c)
	out := make([]Suggestion, len(prospects))
	near := p.near(cue)
	narrow := near.Share() < straightBelow
	var groups [bins][each]possibility
	if !narrow {
		groups = p.groups(cue)
	}
	for i := range prospects {
		q := &prospects[i]
		if narrow {
			q.Nats = near.information(q)
		} else {
			q.Nats = q.information(p, groups)
		}
		out[i] = q.Suggestion
	}
	slices.SortStableFunc(out, func(a, b Suggestion) int { return cmp.Compare(b.Nats, a.Nats) })
	return out
}

// possibility is one draw as a stroke's forecast needs it.
type possibility struct {
	at    float64 // on the grid
	z     *[allUnknowns]float64
	sigma float64
}

// groups are possibilities by their pivot length.
func (p *Posterior) groups(cue int) (out [bins][each]possibility) {
	draws := p.draws()
	all := make([]possibility, 0, bins*each)
	for i := range bins * each {
		d := draws[(2*i+1)*len(draws)/(2*bins*each)]
		all = append(all, possibility{offGrid(d.pivot(p, cue)), &p.cloud.z[d.point], p.cloud.sigma(d.point)})
	}
	slices.SortStableFunc(all, func(a, b possibility) int { return cmp.Compare(a.at, b.at) })
	for b := range out {
		copy(out[b][:], all[b*each:])
	}
	return out
}

// offGrid is the place on the grid of a pivot length in metres.
func offGrid(pivot float64) float64 {
	return pivots * math.Log(pivot/float64(PivotLeast)) / math.Log(float64(PivotMost/PivotLeast))
}

// information is what the stroke is expected to tell, in nats.
func (q *prospect) information(p *Posterior, groups [bins][each]possibility) float64 {
	if q.half > 0 || q.Kind == ByGate {
		return q.outcomes(groups)
	}
	line := float64(q.Line)
	var all, squares, within, noise float64
	for b := range groups {
		var sum, square, n float64
		for i := range groups[b] {
			g := &groups[b][i]
			x := q.where(g.at, g.z)
			if x == never {
				continue
			}
			sum, square, n = sum+x, square+x*x, n+1
			noise += line*line*g.sigma*g.sigma + q.read*q.read
		}
		if n < 2 {
			return 0
		}
		all, squares = all+sum, squares+square
		within += (square - sum*sum/n) / (n - 1) * n
	}
	const n = bins * each
	total := squares/n - all*all/n/n
	return max(0, math.Log((total+noise/n)/(within/n+noise/n))/2)
}

// outcomes is the information of a gate.
func (q *prospect) outcomes(groups [bins][each]possibility) float64 {
	var all [outcomes]float64
	known := 0.0
	for b := range groups {
		var chance [outcomes]float64
		for i := range groups[b] {
			g := &groups[b][i]
			c := q.chances(q.where(g.at, g.z), g.sigma)
			for o := range chance {
				chance[o] += c[o] / each
			}
		}
		for o := range all {
			all[o] += chance[o] / bins
		}
		known += entropy(chance) / bins
	}
	return max(0, entropy(all)-known)
}

// chances are those of each outcome being noted.
func (q *prospect) chances(x, sigma float64) (out [outcomes]float64) {
	if x == never {
		return [outcomes]float64{1.0 / 3, 1.0 / 3, 1.0 / 3}
	}
	per := 1 / (float64(q.Line) * sigma)
	left, right := stat.QuickNormal((-q.half-x)*per), stat.QuickNormal((x-q.half)*per)
	for o, v := range [outcomes]float64{Left: left, Clean: max(0, 1-left-right), Right: right} {
		out[o] = (1-wrong)*v + wrong/float64(outcomes)
	}
	return out
}

// entropy is that of a distribution, in nats.
func entropy(p [outcomes]float64) float64 {
	h := 0.0
	for _, v := range p {
		if v > 0 {
			h -= v * math.Log(v)
		}
	}
	return h
}
