package trial

import (
	"math"

	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// The pooled grid, on which suggestions are compared, is coarser than the
// posterior's, so that an answer comes between two strokes.
const (
	poolPivots   = 24
	poolElevs    = 3
	poolScatters = 4
	poolAims     = 7
)

// A pool is a posterior in fewer cells of about equal weight, each placed at its
// centre of weight.
type pool struct {
	weight  [poolPivots][poolElevs][poolScatters][poolAims]float64
	pivot   [poolPivots]float64
	elev    [poolElevs]float64
	scatter [poolScatters]float64
	aim     [poolAims]float64
}

func (p *Posterior) pooled() *pool {
	var out pool
	var pl [pivots]int
	var pe [elevs]int
	var ps [scatters]int
	var pa [aims]int
	gather(pl[:], out.pivot[:], p.byPivot[:], p.pivot[:])
	gather(pe[:], out.elev[:], p.byElev[:], p.elev[:])
	gather(ps[:], out.scatter[:], p.byScatter[:], p.scatter[:])
	gather(pa[:], out.aim[:], p.byAim[:], p.aim[:])
	p.each(func(l, e, s int, row []float64) {
		into := &out.weight[pl[l]][pe[e]][ps[s]]
		for a, w := range row {
			into[pa[a]] += w
		}
	})
	return &out
}

// gather divides the points of a grid among cells of about equal weight. cell
// receives the cell of each point, and centre the centre of weight of each cell.
func gather(cell []int, centre, weight, value []float64) {
	n := len(centre)
	in := make([]float64, n)
	sum := 0.0
	for i, w := range weight {
		c := min(int((sum+w/2)*float64(n)), n-1)
		cell[i] = c
		in[c] += w
		centre[c] += w * value[i]
		sum += w
	}
	for c := range centre {
		if in[c] > 0 {
			centre[c] /= in[c]
		}
	}
}

// information returns the expected information of a try about the pivot length, in
// bits: the entropy of its outcome less the entropy that remains once the pivot
// length is known. The other unknowns are averaged over. half is half the width of
// the gate's corridor, and at the place where the ball comes to the gate for every
// pivot length and elevation error of the pool.
//
// Source: Kontsevich and Tyler, Vision Research 39 (1999) 2729.
func (q *pool) information(at *[poolPivots][poolElevs]float64, dist unit.Length, half float64) float64 {
	var all [outcomes]float64
	var per [poolScatters]float64
	var shift [poolAims]float64
	for s, v := range q.scatter {
		per[s] = 1 / (float64(dist) * v)
	}
	for a, v := range q.aim {
		shift[a] = float64(dist) * math.Tan(v)
	}
	known, total := 0.0, 0.0
	for l := range q.weight {
		var left, right, weight float64
		for e := range q.weight[l] {
			x := at[l][e]
			if x == never {
				continue
			}
			for s := range q.weight[l][e] {
				for a, w := range q.weight[l][e][s] {
					if w == 0 {
						continue
					}
					weight += w
					left += w * stat.QuickNormal((-half-x-shift[a])*per[s])
					right += w * stat.QuickNormal((x+shift[a]-half)*per[s])
				}
			}
		}
		if weight == 0 {
			continue
		}
		p := [outcomes]float64{
			Left: noted(left / weight), Clean: noted(max(0, 1-(left+right)/weight)), Right: noted(right / weight),
		}
		for o := range p {
			all[o] += weight * p[o]
		}
		known += weight * entropy(p)
		total += weight
	}
	if total == 0 {
		return 0
	}
	for o := range all {
		all[o] /= total
	}
	return max(0, entropy(all)-known/total)
}

// entropy returns the entropy of a distribution, in bits.
func entropy(p [outcomes]float64) float64 {
	h := 0.0
	for _, v := range p {
		if v > 0 {
			h -= v * math.Log2(v)
		}
	}
	return h
}
