package sitting

import (
	"math"
	"slices"

	"pivotbench/core/shot"
	"pivotbench/core/stat"
)

// A Posterior is the posterior distribution after the strokes of a sitting. It is
// immutable; Add returns a new one.
//
// The cues are independent of each other given the shared unknowns, so each cue
// has its own table: the likelihood of its strokes for every point of the cloud
// and every pivot length of the grid.
type Posterior struct {
	setUp   SetUp
	cloud   *cloud
	mix     [points]float64 // posterior weights of the cloud's points; they sum to one
	cues    []*table
	strokes []weighed
	logOdds float64 // logarithm of the marginal likelihood; a density where sights are exact
}

// A table holds one cue's likelihoods. Each row is divided by its largest value.
type table struct {
	first shot.Shot // the cue's first stroke, which sets the gear and the reference offset
	n     int       // number of strokes
	like  [points][pivots]float64
	span  [points][2]int  // half-open range of a row outside which it is negligible
	scale [points]float64 // logarithm of the divisor of a row
	sum   [points]float64 // sum of a row
}

// weighed is a stroke with its scalars and their forecasts, ready for its
// likelihood to be computed.
type weighed struct {
	Stroke
	seen  []scalar
	where []forecast
}

// Prior returns the distribution before the first stroke.
func Prior(u SetUp) *Posterior {
	p := &Posterior{setUp: u, cloud: newCloud()}
	p.normalize()
	return p
}

// Of returns the posterior after a sitting's strokes. Impossible strokes are left
// out, and errs has the reason at each one's index. errs is nil when every stroke
// is possible.
func Of(u SetUp, strokes []Stroke) (p *Posterior, errs []error) {
	p = Prior(u)
	for i, k := range strokes {
		next, err := p.Add(k)
		if err != nil {
			if errs == nil {
				errs = make([]error, len(strokes))
			}
			errs[i] = err
			continue
		}
		p = next
	}
	return p, errs
}

// leastEffective is the effective sample size below which a new cloud is drawn.
const leastEffective = points / 4

// Add returns the posterior after one more stroke. It returns an error when the
// stroke is impossible or its ball can't reach the line with any cue. Any stroke
// may have been recorded wrongly, so strokes that contradict each other never make
// the likelihood zero: they widen the scatter and the interval.
func (p *Posterior) Add(k Stroke) (*Posterior, error) {
	w, err := p.weigh(k)
	if err != nil {
		return nil, err
	}
	next := *p
	next.strokes = append(slices.Clip(p.strokes), w)
	next.cues = slices.Clone(p.cues)
	for len(next.cues) <= k.Cue {
		next.cues = append(next.cues, nil)
	}
	t := &table{}
	if old := next.cues[k.Cue]; old != nil {
		*t = *old
	} else {
		t.start(&w.Shot, [2]int{0, pivots})
	}
	next.cues[k.Cue] = t
	t.take(next.cloud, &p.mix, &w)
	next.normalize()
	for range 4 {
		if effective(&next.mix) >= leastEffective {
			break
		}
		next.redraw()
	}
	return &next, nil
}

// weigh computes the scalars and forecasts of a stroke, with its pivot length at
// the cue's reference offset.
func (p *Posterior) weigh(k Stroke) (weighed, error) {
	if err := k.check(); err != nil {
		return weighed{}, err
	}
	if ref := p.Reference(k.Cue); ref != 0 {
		k.Shot.Cue.PivotSpin = ref
	}
	w := weighed{Stroke: k, seen: k.Seen.sees(&k.Shot)}
	of := make([]measure, len(w.seen))
	for i, s := range w.seen {
		of[i] = s.of
	}
	var err error
	w.where, err = p.setUp.forecasts(&k.Shot, of)
	return w, err
}

// redraw draws a new cloud from the current posterior and recomputes the
// likelihoods of all strokes on it.
func (p *Posterior) redraw() {
	mean, root := p.cloud.moments(&p.mix)
	for c, old := range p.cues {
		if old != nil {
			weight := p.byPivot(c)
			p.cues[c] = &table{}
			p.cues[c].start(&old.first, alive(weight[:], slices.Max(weight[:])))
		}
	}
	p.cloud = around(mean, root)
	p.normalize()
	for i := range p.strokes {
		p.cues[p.strokes[i].Cue].take(p.cloud, &p.mix, &p.strokes[i])
		p.normalize()
	}
}

// start initializes the table of a cue without strokes. The prior is uniform over
// the grid; pivot lengths outside span are left at zero.
func (t *table) start(first *shot.Shot, span [2]int) {
	t.first = *first
	for i := range t.like {
		for k := span[0]; k < span[1]; k++ {
			t.like[i][k] = 1
		}
		t.span[i], t.sum[i] = span, float64(span[1]-span[0])
	}
}

// nothing is the share of the total below which a weight is negligible.
const nothing = 1e-13

// alive returns the half-open span of a row outside which it is negligible
// compared with most, its largest value.
func alive(row []float64, most float64) (span [2]int) {
	from, to := 0, len(row)
	for from < to && row[from] < nothing*most {
		from++
	}
	for to > from && row[to-1] < nothing*most {
		to--
	}
	return [2]int{from, to}
}

// take multiplies in the likelihood of a stroke, at the points whose weight is not
// negligible.
func (t *table) take(c *cloud, mix *[points]float64, w *weighed) {
	t.n++
	var chance [pivots]float64
	for i := range t.like {
		if mix[i] < nothing {
			t.sum[i] = 0
			continue
		}
		from, to := t.span[i][0], t.span[i][1]
		w.chances(c, i, from, to, &chance)
		row, most := &t.like[i], 0.0
		for k := from; k < to; k++ {
			row[k] *= chance[k]
			most = max(most, row[k])
		}
		keep := alive(row[from:to], most)
		clear(row[from : from+keep[0]])
		clear(row[from+keep[1] : to])
		from, to = from+keep[0], from+keep[1]
		t.sum[i] = 0
		for k := from; k < to; k++ {
			row[k] /= most
			t.sum[i] += row[k]
		}
		t.span[i] = [2]int{from, to}
		t.scale[i] += math.Log(most)
	}
}

// chances fills in the likelihood of a stroke's sight, a probability or a density,
// at point i of the cloud for the pivot lengths of the half-open span from, to.
func (w *weighed) chances(c *cloud, i, from, to int, out *[pivots]float64) {
	sigma, bias := c.sigma[i], c.bias(i)
	odds := wrong * w.seen[0].odds
	var at [pivots]float64
	for j := range w.seen {
		s := &w.seen[j]
		w.where[j].at(&c.row[i], from, to, &at)
		shift := s.turn * bias
		sd := math.Abs(s.turn) * sigma
		if s.exact {
			sd = math.Hypot(sd, s.read)
		}
		per := 1 / sd
		for k := from; k < to; k++ {
			x := at[k]
			if x == never {
				out[k] = 0
				continue
			}
			var v float64
			if s.exact {
				v = density((s.from-x-shift)*per) * per
			} else {
				v = stat.QuickNormal((s.to-x-shift)*per) - stat.QuickNormal((s.from-x-shift)*per)
			}
			if j == 0 {
				out[k] = v
			} else {
				out[k] *= v
			}
		}
	}
	for k := from; k < to; k++ {
		out[k] = (1-wrong)*out[k] + odds
	}
}

// density returns the standard Normal density, or 0 where it is less than 1e-14,
// which is negligible beside the probability of a recording error.
func density(z float64) float64 {
	if z > 8 || z < -8 {
		return 0
	}
	return stat.NormalDensity(z)
}

// normalize computes the mix and logOdds from the likelihoods.
func (p *Posterior) normalize() {
	var logs [points]float64
	most := math.Inf(-1)
	for i := range logs {
		logs[i] = math.Log(p.cloud.weight[i])
		for _, t := range p.cues {
			if t != nil {
				logs[i] += t.scale[i] + math.Log(t.sum[i]/pivots)
			}
		}
		most = max(most, logs[i])
	}
	sum := 0.0
	for i, v := range logs {
		p.mix[i] = math.Exp(v - most)
		sum += p.mix[i]
	}
	for i := range p.mix {
		p.mix[i] /= sum
	}
	p.logOdds = most + math.Log(sum/points)
}

// Doubt returns the probability that a stroke was recorded wrongly. It is near one
// for a stroke that contradicts the others. Strokes are counted from 0 in the order
// in which they were added.
func (p *Posterior) Doubt(stroke int) float64 {
	w := &p.strokes[stroke]
	t := p.cues[w.Cue]
	odds, doubt := wrong*w.seen[0].odds, 0.0
	var chance [pivots]float64
	for i, m := range p.mix {
		if m < 1e-7 {
			continue
		}
		from, to := t.span[i][0], t.span[i][1]
		w.chances(p.cloud, i, from, to, &chance)
		for k := from; k < to; k++ {
			doubt += m * t.like[i][k] / t.sum[i] * odds / chance[k]
		}
	}
	return doubt
}

// N returns the number of strokes.
func (p *Posterior) N() int { return len(p.strokes) }

// Strokes returns the number of strokes of one cue.
func (p *Posterior) Strokes(cue int) int {
	if t := p.table(cue); t != nil {
		return t.n
	}
	return 0
}

// table returns the table of a cue, or nil when the cue has no strokes.
func (p *Posterior) table(cue int) *table {
	if cue < 0 || cue >= len(p.cues) {
		return nil
	}
	return p.cues[cue]
}

// Reference returns the contact offset, in ball radii, that a cue's pivot length
// refers to: the PivotSpin of its first stroke. It returns 0 when the cue has no
// strokes.
func (p *Posterior) Reference(cue int) float64 {
	if t := p.table(cue); t != nil {
		return t.first.Cue.PivotSpin
	}
	return 0
}
