package sitting

import (
	"cmp"
	"math"
	"slices"

	"pivotbench/core/shot"
	"pivotbench/core/stat"
)

// To estimate the information of a stroke, draws are sorted by pivot length into
// bins groups of equal probability, each with each draws.
const bins, each = 16, 24

// straightBelow is a half-width of the 90 % interval, as a share of the pivot
// length. Below it, the ball's position is nearly linear in the unknowns, and the
// information of a stroke has a closed form.
const straightBelow = 0.2

// Next returns the possible next strokes for a cue, the most informative first.
// They are ranked by the mutual information between what will be seen and the
// logarithm of the pivot length, averaged over all other unknowns. The result is
// empty when no choice sends a ball to its line.
//
// Source: Kontsevich and Tyler, Vision Research 39 (1999) 2729. For a mark, both
// entropies are approximated by those of Normal distributions with the same
// variances, computed for each value of the player's scatter and averaged.
func (p *Posterior) Next(cue int, s *shot.Shot, c *Choice) []Suggestion {
	out, _ := p.NextWhile(cue, s, c, func() bool { return true })
	return out
}

// NextWhile is Next in steps: see AddWhile. ok is false when on returned false.
func (p *Posterior) NextWhile(cue int, s *shot.Shot, c *Choice, on func() bool) (out []Suggestion, ok bool) {
	near := p.near(cue)
	narrow := near.Share() < straightBelow
	var groups groups
	if !narrow {
		groups = p.groups(cue)
	}
	for _, of := range c.families(s) {
		if !on() {
			return nil, false
		}
		family := p.family(cue, s, c, of)
		if !narrow && len(family) > 0 {
			groups.play(&family[0]) // they share a path
		}
		for i := range family {
			q := &family[i]
			if narrow {
				q.Nats = near.information(q)
			} else {
				q.Nats = q.information(&groups)
			}
			out = append(out, q.Suggestion)
		}
	}
	slices.SortStableFunc(out, func(a, b Suggestion) int { return cmp.Compare(b.Nats, a.Nats) })
	return out, true
}

// possibility is one posterior draw, in the form that a forecast uses.
type possibility struct {
	at      float64 // pivot length, as a position on the grid
	z       *[allUnknowns]float64
	sigma   float64
	bearing float64 // of the path that groups.play last computed
}

// groups are possibilities grouped by pivot length.
type groups [bins][each]possibility

// play computes the bearing of a prospect's path for every possibility.
func (g *groups) play(q *prospect) {
	for b := range g {
		for i := range g[b] {
			g[b][i].bearing = q.bearingOf(g[b][i].at, g[b][i].z)
		}
	}
}

// groups returns an even sample of the draws, sorted by a cue's pivot length.
func (p *Posterior) groups(cue int) (out groups) {
	draws := p.draws()
	all := make([]possibility, 0, bins*each)
	for i := range bins * each {
		d := draws[(2*i+1)*len(draws)/(2*bins*each)]
		all = append(all, possibility{at: offGrid(d.pivot(p, cue)), z: &p.cloud.z[d.point], sigma: p.cloud.sigma[d.point]})
	}
	slices.SortStableFunc(all, func(a, b possibility) int { return cmp.Compare(a.at, b.at) })
	for b := range out {
		copy(out[b][:], all[b*each:])
	}
	return out
}

// offGrid returns the position on the grid of a pivot length in metres. It is the
// inverse of onGrid.
func offGrid(pivot float64) float64 {
	return pivots * math.Log(pivot/float64(PivotLeast)) / math.Log(float64(PivotMost/PivotLeast))
}

// information returns the expected information of the stroke about the pivot
// length, in nats.
func (q *prospect) information(groups *groups) float64 {
	if q.Kind == ByGate {
		return q.outcomes(groups)
	}
	var all, squares, within, n float64
	for b := range groups {
		var sum, square, some float64
		for i := range groups[b] {
			g := &groups[b][i]
			if x := q.crosses(g.bearing, g.z); x != never {
				sum, square, some = sum+x, square+x*x, some+1
			}
		}
		if some < 2 {
			return 0
		}
		all, squares, n = all+sum, squares+square, n+some
		within += (square - sum*sum/some) / (some - 1) * some
	}
	total := squares/n - all*all/n/n
	within /= n
	nats := 0.0
	for b := range groups {
		for i := range groups[b] {
			noise := float64(q.Line) * groups[b][i].sigma
			noise = noise*noise + q.read*q.read
			nats += math.Log((total+noise)/(within+noise)) / 2 / (bins * each)
		}
	}
	return max(0, nats)
}

// outcomes returns the expected information of a stroke at a gate, in nats.
func (q *prospect) outcomes(groups *groups) float64 {
	var all [outcomes]float64
	known := 0.0
	for b := range groups {
		var chance [outcomes]float64
		for i := range groups[b] {
			g := &groups[b][i]
			c := q.chances(q.crosses(g.bearing, g.z), g.sigma)
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

// chances returns the probability that each outcome is recorded, for a ball
// expected at x, in metres to the right, and a scatter sigma in radians.
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

// entropy returns the Shannon entropy of a distribution, in nats.
func entropy(p [outcomes]float64) float64 {
	h := 0.0
	for _, v := range p {
		if v > 0 {
			h -= v * math.Log(v)
		}
	}
	return h
}
