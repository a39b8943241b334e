package sitting

import (
	"math"

	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// Landing returns the interval of sideways positions, in metres, in which a share of
// a cue's strokes cross a line, given everything known so far: the posterior of the
// pivot length, the set-up, and the player's bias and scatter. The middle of the
// interval has equal shares outside on both sides. It returns an error when the ball
// does not reach the line with any cue.
func (p *Posterior) Landing(cue int, s shot.Shot, line unit.Length, share float64) (stat.Interval[float64], error) {
	k := Stroke{Cue: cue, Shot: s, Seen: Mark{Line: line, Read: ByEye, Across: line}}
	w, err := p.weigh(k)
	if err != nil {
		return stat.Interval[float64]{}, err
	}
	i, ok := p.landing(&w, share)
	if !ok {
		return i, ErrNoCrossing
	}
	return i, nil
}

// Landed returns the Landing of a stroke that was marked: where strokes like it
// cross its line. Strokes are counted from 0 in the order in which they were added.
// ok is false for a stroke that was not marked, or is no longer thought to reach it.
func (p *Posterior) Landed(stroke int, share float64) (i stat.Interval[float64], ok bool) {
	w := &p.strokes[stroke]
	if _, ok := w.Seen.(Mark); !ok {
		return i, false
	}
	return p.landing(w, share)
}

// landing returns the central interval of a stroke's crossing: a mixture of one
// Normal distribution for each draw from the posterior. ok is false when none of them
// reaches the line.
func (p *Posterior) landing(w *weighed, share float64) (i stat.Interval[float64], ok bool) {
	type normal struct{ mean, sd float64 }
	var mixed []normal
	least, most := math.Inf(1), math.Inf(-1)
	turn := w.seen[0].turn
	at := make([]float64, 1)
	for _, d := range p.draws() {
		k := min(int(offGrid(d.pivot(p, w.Cue))), pivots-1)
		w.where[0].at(&p.cloud.of[w.Sitting].row[d.point], k, at)
		if at[0] == never {
			continue
		}
		n := normal{at[0] + turn*p.cloud.bias(d.point), turn * p.cloud.sigma[d.point]}
		const tail = 6
		least, most = min(least, n.mean-tail*n.sd), max(most, n.mean+tail*n.sd)
		mixed = append(mixed, n)
	}
	if mixed == nil {
		return i, false
	}
	quantile := func(share float64) float64 {
		from, to := least, most
		for range 40 { // bisection, to a trillionth of the range
			mid, below := (from+to)/2, 0.0
			for _, n := range mixed {
				below += stat.QuickNormal((mid - n.mean) / n.sd)
			}
			if below < share*float64(len(mixed)) {
				from = mid
			} else {
				to = mid
			}
		}
		return (from + to) / 2
	}
	return stat.Interval[float64]{From: quantile((1 - share) / 2), To: quantile((1 + share) / 2)}, true
}
