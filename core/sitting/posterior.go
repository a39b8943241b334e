package sitting

import (
	"math"
	"slices"

	"pivotbench/core/shot"
	"pivotbench/core/stat"
)

// A Posterior is what is known after the strokes of a sitting. It never changes;
// Add makes another.
//
// Given the shared unknowns the cues are independent of each other, so each has
// a table of its own: the likelihood of its strokes for every point of the cloud
// and every pivot length of the grid.
type Posterior struct {
	setUp   SetUp
	cloud   *cloud
	mix     [points]float64 // of the cloud, after the strokes: sums to one
	cues    []*table
	strokes []weighed
	logOdds float64 // logarithm of the strokes' probability, of a density where they are exact
}

// A table is one cue's likelihoods, each row scaled to its largest.
type table struct {
	first shot.Shot // of its strokes: the gear and the offset its pivot length is told at
	n     int       // strokes
	like  [points][pivots]float64
	span  [points][2]int  // where a row is more than next to nothing
	scale [points]float64 // logarithm of what a row was divided by
	sum   [points]float64 // of a row
}

// weighed is a stroke with all that it takes to weigh it.
type weighed struct {
	Stroke
	seen  []scalar
	where []forecast
}

// Prior returns what is known before the first stroke.
func Prior(u SetUp) *Posterior {
	p := &Posterior{setUp: u, cloud: newCloud()}
	p.normalize()
	return p
}

// Of returns what a sitting's strokes come to. Strokes that can't have been are
// left out, and why stands in errs at their places, which is nil when there are
// none.
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

// leastEffective is when a new cloud is drawn: when fewer points than this carry
// the weight.
const leastEffective = points / 4

// Add returns the posterior after one more stroke. A stroke that can't have been
// is refused with the reason; so is one whose ball can't get to its line with
// any cue. No sight is impossible, so strokes that contradict each other never
// leave nothing: they make for a wide scatter and a wide interval.
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

// weigh makes a stroke ready.
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

// redraw draws the cloud anew, where the strokes leave the unknowns, and weighs
// all strokes over it.
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

// start is a cue without strokes: the prior is even over the grid, of which only
// a span needs to be looked at.
func (t *table) start(first *shot.Shot, span [2]int) {
	t.first = *first
	for i := range t.like {
		for k := span[0]; k < span[1]; k++ {
			t.like[i][k] = 1
		}
		t.span[i], t.sum[i] = span, float64(span[1]-span[0])
	}
}

// nothing is a share of the whole that counts for none of it.
const nothing = 1e-13

// alive returns the span of a row outside which it is next to nothing of its most.
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

// take multiplies a stroke's likelihoods in, at the points that still count.
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

// chances fills in the probability, or density, of what was seen of a stroke for
// the pivot lengths of a span at a point of the cloud.
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
// which is nothing beside the probability of a wrong note.
func density(z float64) float64 {
	if z > 8 || z < -8 {
		return 0
	}
	return stat.NormalDensity(z)
}

// normalize computes the mix from the likelihoods: it sums to one.
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

// Doubt returns the probability that a stroke, counted from 0 in the order they
// were added, was noted down wrongly: near one where it can't be squared with
// the others.
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

// N returns how many strokes are in it.
func (p *Posterior) N() int { return len(p.strokes) }

// Strokes returns how many of them one cue has.
func (p *Posterior) Strokes(cue int) int {
	if t := p.table(cue); t != nil {
		return t.n
	}
	return 0
}

// table is a cue's; nil: it has no strokes.
func (p *Posterior) table(cue int) *table {
	if cue < 0 || cue >= len(p.cues) {
		return nil
	}
	return p.cues[cue]
}

// Reference returns the contact offset, in ball radii, at which a cue's pivot
// length is told: that of its first stroke. 0: it has none yet.
func (p *Posterior) Reference(cue int) float64 {
	if t := p.table(cue); t != nil {
		return t.first.Cue.PivotSpin
	}
	return 0
}
