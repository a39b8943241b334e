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
		if len(family) > 0 { // they share a path
			if narrow {
				family[0].play(near.probes)
			} else {
				family[0].play(groups[:])
			}
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

// possibility is values that the unknowns may have, in the form that a forecast uses.
type possibility struct {
	at      float64 // pivot length, as a position on the grid
	z       *[allUnknowns]float64
	sigma   float64
	bearing float64 // of the path that was last played
}

// groups are draws from the posterior, sorted by pivot length: bins groups of each.
type groups [bins * each]possibility

// play computes the bearing of the prospect's path for every possibility. It is the same
// for all prospects of a family.
func (q *prospect) play(all []possibility) {
	for i := range all {
		all[i].bearing = q.bearingOf(all[i].at, all[i].z)
	}
}

// groups returns an even sample of the draws, sorted by a cue's pivot length.
func (p *Posterior) groups(cue int) (out groups) {
	draws := p.draws()
	for i := range out {
		d := draws[(2*i+1)*len(draws)/(2*len(out))]
		out[i] = possibility{at: offGrid(d.pivot(p, cue)), z: &p.cloud.now().z[d.point], sigma: p.cloud.sigma[d.point]}
	}
	slices.SortStableFunc(out[:], func(a, b possibility) int { return cmp.Compare(a.at, b.at) })
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
	for group := range slices.Chunk(groups[:], each) {
		var sum, square, some float64
		for i := range group {
			if x := q.crosses(group[i].bearing, group[i].z); x != never {
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
	for few := range slices.Chunk(groups[:], 8) { // one logarithm of a product is faster than eight
		product := 1.0
		for i := range few {
			noise := float64(q.Line) * few[i].sigma
			noise = noise*noise + q.read*q.read
			product *= (total + noise) / (within + noise)
		}
		nats += math.Log(product) / 2 / float64(len(groups))
	}
	return max(0, nats)
}

// outcomes returns the expected information of a stroke at a gate, in nats.
func (q *prospect) outcomes(groups *groups) float64 {
	var all [outcomes]float64
	known := 0.0
	for group := range slices.Chunk(groups[:], each) {
		var chance [outcomes]float64
		for i := range group {
			c := q.chances(q.crosses(group[i].bearing, group[i].z), group[i].sigma)
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
