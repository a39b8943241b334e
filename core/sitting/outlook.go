package sitting

import (
	"math"

	"pivotbench/core/shot"
	"pivotbench/core/stat"
)

// An Outlook predicts how further strokes will narrow the pivot length. It
// approximates the posterior by a Normal distribution and the ball's position by a
// linear function of the unknowns. That is accurate enough to say about how many
// more strokes are needed, and what would help.
//
// Its unknowns are the logarithm of the pivot length, in steps of the grid, and
// the shared unknowns except the scatter.
type Outlook struct {
	cov    [known][known]float64
	sigma  float64 // the median scatter
	probes []possibility
	strips []strip
}

// An outlook's slopes come from differences: a prospect is played at the median pivot
// length with all other unknowns at their means, which is the first of the probes, then
// with the pivot length two steps of the grid more and less, then with each other unknown
// a quarter of a standard deviation more and less.
const pivotStep, otherStep = 2, 0.25

// known is the number of unknowns of an outlook: the pivot length, the set-up
// errors and the aim bias. The scatter is fixed at its median.
const known = 1 + setUps + 1

// A strip is the linear model of a prospect: the slope of the ball's position in
// each unknown, in metres, and the variance of its noise, in square metres.
type strip struct {
	slope    [known]float64
	variance float64
}

// Outlook returns the outlook for a cue when the next strokes are chosen from c.
func (p *Posterior) Outlook(cue int, s *shot.Shot, c *Choice) *Outlook {
	o, _ := p.OutlookWhile(cue, s, c, func() bool { return true })
	return o
}

// OutlookWhile is Outlook in steps: see AddWhile. ok is false when on returned false.
func (p *Posterior) OutlookWhile(cue int, s *shot.Shot, c *Choice, on func() bool) (o *Outlook, ok bool) {
	o = p.near(cue)
	for _, of := range c.families(s) {
		if !on() {
			return nil, false
		}
		family := p.family(cue, s, c, of)
		if len(family) > 0 {
			family[0].play(o.probes)
		}
		for i := range family {
			if t, ok := family[i].strip(o); ok {
				o.strips = append(o.strips, t)
			}
		}
	}
	return o, true
}

// near returns the outlook for a cue without any choice of strokes.
func (p *Posterior) near(cue int) *Outlook {
	o := &Outlook{cov: p.covariance(cue), sigma: p.Scatter().Median}
	weight := p.byPivot(cue)
	middle := place(&weight, 0.5)
	mean := new([allUnknowns]float64)
	for i, m := range p.mix {
		for d, v := range p.cloud.now().z[i] {
			mean[d] += m * v
		}
	}
	for _, off := range []float64{0, pivotStep, -pivotStep} {
		o.probes = append(o.probes, possibility{at: middle + off, z: mean})
	}
	for d := range known - 1 {
		for _, off := range []float64{otherStep, -otherStep} {
			z := *mean
			z[d] += off
			o.probes = append(o.probes, possibility{at: middle, z: &z})
		}
	}
	return o
}

// information returns the expected information about the pivot length, in nats, of a
// prospect of the family that was last played. It is 0 when the ball does not reach the
// line.
func (o *Outlook) information(q *prospect) float64 {
	t, ok := q.strip(o)
	if !ok {
		return 0
	}
	_, less := t.gain(&o.cov)
	return -math.Log(max(1-less/o.cov[0][0], 1e-9)) / 2
}

// covariance returns the covariance of the pivot length's position on the grid
// and the shared unknowns.
func (p *Posterior) covariance(cue int) (cov [known][known]float64) {
	const inStep = 1. / 12 // the variance of the position within a step
	var mean [known]float64
	t := p.table(cue)
	for i, m := range p.mix {
		if m == 0 {
			continue
		}
		from, to := 0, pivots
		if t != nil {
			from, to = t.span[i][0], t.span[i][1]
		}
		sum, first, second := 0.0, 0.0, 0.0
		for k := from; k < to; k++ {
			at, l := float64(k)+0.5, 1.0
			if t != nil {
				l = t.like[i][k]
			}
			sum += l
			first += l * at
			second += l * at * at
		}
		var at [known]float64
		at[0] = first / sum
		copy(at[1:], p.cloud.now().z[i][:known-1])
		for j, v := range at {
			mean[j] += m * v
			for k, u := range at {
				cov[j][k] += m * v * u
			}
		}
		cov[0][0] += m * (second/sum - at[0]*at[0] + inStep)
	}
	for j := range cov {
		for k := range cov {
			cov[j][k] -= mean[j] * mean[k]
		}
	}
	return cov
}

// strip linearizes a prospect of the family that was last played. ok is false when the
// ball does not reach the line.
func (q *prospect) strip(o *Outlook) (t strip, ok bool) {
	var at [1 + 2*known]float64
	for i := range at {
		at[i] = q.crosses(o.probes[i].bearing, o.probes[i].z)
	}
	x := at[0]
	if x == never || at[1] == never || at[2] == never {
		return strip{}, false
	}
	t.slope[0] = (at[1] - at[2]) / (2 * pivotStep)
	for d := 1; d < known; d++ {
		t.slope[d] = (at[1+2*d] - at[2+2*d]) / (2 * otherStep)
	}
	spread := float64(q.Line) * o.sigma
	t.variance = spread*spread + q.read*q.read
	if q.Kind == ByGate {
		// The information of an outcome depends on how close the ball passes to a
		// blocker, which is uncertain, so it is averaged over the prediction.
		square := 0.0
		for j := range known {
			for k := range known {
				square += t.slope[j] * o.cov[j][k] * t.slope[k]
			}
		}
		information := 0.0
		for b := range bins {
			off := math.Sqrt(max(square, 0)) * stat.NormalQuantile((float64(b)+0.5)/bins)
			information += q.fisher(x+off, spread) / bins
		}
		t.variance = 1 / information
	}
	return t, true
}

// fisher returns the Fisher information of a gate's outcome about the expected
// position x of the ball, per square metre. spread is the standard deviation of
// the position. x and spread are in metres.
func (q *prospect) fisher(x, spread float64) float64 {
	c := q.chances(x, spread/float64(q.Line))
	left, right := stat.NormalDensity((-q.half-x)/spread)/spread, stat.NormalDensity((q.half-x)/spread)/spread
	sum := 0.0
	for o, change := range [outcomes]float64{Left: -left, Clean: left - right, Right: right} {
		change *= 1 - wrong
		sum += change * change / c[o]
	}
	return max(sum, 1e-9)
}

// Share returns the current half-width of the 90 % interval, as a share of the
// pivot length.
func (o *Outlook) Share() float64 { return shareOf(o.cov[0][0]) }

// shareOf converts a variance in squared steps of the grid to the half-width of
// the 90 % interval, as a share of the pivot length.
func shareOf(variance float64) float64 {
	step := math.Log(float64(PivotMost/PivotLeast)) / pivots
	return math.Expm1(stat.Reach90 * step * math.Sqrt(max(variance, 0)))
}

// After returns the share that is expected after a number of further strokes, each
// chosen to narrow the pivot length most.
func (o *Outlook) After(strokes int) float64 {
	cov := o.cov
	for range strokes {
		o.take(&cov)
	}
	return shareOf(cov[0][0])
}

// Strokes returns about how many more strokes are needed until the share is at
// most within. ok is false when more than most strokes are needed; n is then most.
func (o *Outlook) Strokes(within float64, most int) (n int, ok bool) {
	cov := o.cov
	for n = range most + 1 {
		if shareOf(cov[0][0]) <= within {
			return n, true
		}
		o.take(&cov)
	}
	return most, false
}

// take updates the covariance with the stroke that narrows the pivot length most.
func (o *Outlook) take(cov *[known][known]float64) {
	best, most := -1, 0.0
	var gain [known]float64
	for i := range o.strips {
		if g, less := o.strips[i].gain(cov); less > most {
			best, most, gain = i, less, g
		}
	}
	if best < 0 {
		return
	}
	for j := range known {
		for k := range known {
			cov[j][k] -= gain[j] * gain[k]
		}
	}
}

// gain returns the vector whose outer product gain·gainᵀ a stroke subtracts from
// the covariance, and less, the reduction of the pivot length's variance.
func (t *strip) gain(cov *[known][known]float64) (gain [known]float64, less float64) {
	total := t.variance
	for j := range known {
		for k := range known {
			gain[j] += cov[j][k] * t.slope[k]
		}
		total += gain[j] * t.slope[j]
	}
	for j := range gain {
		gain[j] /= math.Sqrt(total)
	}
	return gain, gain[0] * gain[0]
}

// Narrowed returns the outlook after an instrument has measured one of the set-up
// errors, so that its prior standard deviation falls to a share of its former
// value. share is between 0 and 1, exclusive.
func (o *Outlook) Narrowed(which int, share float64) *Outlook {
	out := *o
	d := 1 + which
	// An extra reading of that error. Its variance is such that, combined with the
	// prior's variance of 1, it gives share².
	variance := share * share / (1 - share*share)
	total := o.cov[d][d] + variance
	for j := range known {
		for k := range known {
			out.cov[j][k] -= o.cov[j][d] * o.cov[k][d] / total
		}
	}
	return &out
}
