package sitting

import (
	"math"
	"slices"

	"pivotbench/core/shot"
)

// A Posterior is the posterior distribution after the strokes of a sitting, or of a few
// by one player. It is immutable; Add returns a new one.
//
// The cues are independent of each other given the shared unknowns, so each cue
// has its own table: the likelihood of its strokes for every point of the cloud
// and every pivot length of the grid.
type Posterior struct {
	setUp   SetUp
	memo    *memo
	cloud   *cloud
	mix     [points]float64 // posterior weights of the cloud's points; they sum to one
	cues    []*table
	strokes []weighed
	logOdds float64 // logarithm of the marginal likelihood; a density where sights are exact
	rest    int     // number of strokes, from now on, after which no new cloud is drawn
}

// A table holds one cue's likelihoods. A row is a multiple of them, as scale says.
type table struct {
	first shot.Shot        // the cue's first stroke, or the shot it was known from; it sets the gear and the reference offset
	prior *[pivots]float64 // weights of the grid before the first stroke; they sum to pivots
	n     int              // number of strokes
	like  [points][pivots]float64
	span  [points][2]int  // half-open range of a row outside which it is negligible
	scale [points]float64 // logarithm of the divisor of a row
	sum   [points]float64 // sum of a row
}

// weighed is a stroke with its scalars and their forecasts, ready for its
// likelihood to be computed.
type weighed struct {
	Stroke
	setUp SetUp
	seen  []scalar
	where []*forecast
}

// Prior returns the distribution before the first stroke.
func Prior(u SetUp) *Posterior {
	p := &Posterior{setUp: u, memo: new(memo), cloud: fromThePrior()}
	p.normalize()
	return p
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
	w := weighed{Stroke: k, setUp: p.setUp, seen: k.Seen.sees(&k.Shot)}
	if _, film := k.Seen.(Film); !film {
		f, err := p.memo.forecast(p.setUp, &k.Shot, k.Seen.line(&k.Shot), crossingAt)
		w.where = []*forecast{f}
		return w, err
	}
	of := make([]measure, len(w.seen))
	for i, s := range w.seen {
		of[i] = s.of
	}
	found, err := p.setUp.forecasts(&k.Shot, of)
	for i := range found {
		w.where = append(w.where, &found[i])
	}
	return w, err
}

// redraw draws a new cloud from the current posterior and recomputes the
// likelihoods of all strokes on it. It returns false, and leaves p unfinished, when on
// returns false.
func (p *Posterior) redraw(on func() bool) bool {
	if !on() {
		return false
	}
	weight := tempered(&p.mix)
	mean, root := p.cloud.moments(&weight)
	p.cloud = around(mean, root, len(p.cloud.of))
	for c, old := range p.cues {
		if old == nil {
			continue
		}
		if !on() {
			return false
		}
		weight := p.byPivot(c)
		p.cues[c] = &table{}
		p.cues[c].start(&old.first, old.prior, alive(weight[:], slices.Max(weight[:])))
	}
	const now = 4 // points that have become negligible are looked for after so many batches
	for n, b := range batches(p.strokes) {
		if n%now == 0 {
			p.normalize()
		}
		if !p.cues[b[0].Cue].take(p.cloud, &p.mix, b, on) {
			return false
		}
	}
	p.normalize()
	return true
}

// A batch is some strokes of one cue and one sitting with the same forecasts, so that the positions of
// their balls need to be computed only once.
type batch []*weighed

// batches returns strokes in batches, none of them so large that a step of take would
// be long.
func batches(strokes []weighed) (out []batch) {
	const most = 8
	for i := range strokes {
		w := &strokes[i]
		n := slices.IndexFunc(out, func(b batch) bool {
			return len(b) < most && b[0].Cue == w.Cue && b[0].Sitting == w.Sitting && slices.Equal(b[0].where, w.where)
		})
		if n < 0 {
			n, out = len(out), append(out, nil)
		}
		out[n] = append(out[n], w)
	}
	return out
}

// start initializes the table of a cue without strokes. Pivot lengths outside span
// are left at zero.
func (t *table) start(first *shot.Shot, prior *[pivots]float64, span [2]int) {
	t.first, t.prior = *first, prior
	sum := 0.0
	for k := span[0]; k < span[1]; k++ {
		sum += prior[k]
	}
	for i := range t.like {
		copy(t.like[i][span[0]:span[1]], prior[span[0]:span[1]])
		t.span[i], t.sum[i] = span, sum
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

// take multiplies in the likelihood of some strokes, at the points whose weight is not
// negligible. It calls on before every step. It returns false, and leaves t unfinished,
// when on returns false.
func (t *table) take(c *cloud, mix *[points]float64, b batch, on func() bool) bool {
	const inStep = points / 4
	t.n += len(b)
	var chances chances
	for i := range t.like {
		if i%inStep == 0 && !on() {
			return false
		}
		if mix[i] < nothing {
			t.sum[i] = 0
			continue
		}
		from, to := t.span[i][0], t.span[i][1]
		row := t.like[i][from:to]
		most, sum := 0.0, 0.0
		for k, v := range chances.of(b, c, i, from, to) {
			v *= row[k]
			row[k] = v
			sum += v
			if v > most {
				most = v
			}
		}
		keep := alive(row, most)
		clear(row[:keep[0]])
		clear(row[keep[1]:])
		t.span[i], t.sum[i] = [2]int{from + keep[0], from + keep[1]}, sum
		if most < tiny || most > 1/tiny { // a density is more than 1
			for k := range row {
				row[k] /= most
			}
			t.sum[i] /= most
			t.scale[i] += math.Log(most)
		}
	}
	return true
}

// normalize computes the mix and logOdds from the likelihoods.
func (p *Posterior) normalize() {
	var logs [points]float64
	most := math.Inf(-1)
	for i := range logs {
		logs[i] = p.cloud.logWeight[i]
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
	var chances chances
	for i, m := range p.mix {
		if m < 1e-7 {
			continue
		}
		from, to := t.span[i][0], t.span[i][1]
		is := chances.of(batch{w}, p.cloud, i, from, to)
		for k, l := range t.like[i][from:to] {
			doubt += m * l / t.sum[i] * odds / is[k]
		}
	}
	return doubt
}

// Evidence returns the logarithm of the likelihood of all strokes together, averaged
// over the unknowns. The difference between two posteriors is the logarithm of the
// odds at which one list of sights is more probable than the other.
func (p *Posterior) Evidence() float64 { return p.logOdds }

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
