package trial

import (
	"math"
	"slices"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// The points of the grid.
const (
	pivots   = 100 // on a log scale: a step is 2.5 %
	elevs    = 7   // out to 2.5 spreads
	scatters = 10  // on a log scale
	aims     = 15  // out to 2.5 spreads

	spreadsReach = 2.5
)

// A Posterior is what is known after some tries: a weight for every combination of
// pivot length, scatter, aim error and elevation error on a grid. It never
// changes; Add returns a new one.
type Posterior struct {
	pivot   [pivots]float64   // metres
	elev    [elevs]float64    // radians
	scatter [scatters]float64 // radians
	aim     [aims]float64     // radians
	weight  []float64         // pivot, elev, scatter, aim, the last running fastest

	// The marginal distributions.
	byPivot   [pivots]float64
	byElev    [elevs]float64
	byScatter [scatters]float64
	byAim     [aims]float64

	tries []weighed
}

// weighed is a try with the place where its ball comes to the gate, for every
// pivot length and elevation error of the grid.
type weighed struct {
	Try
	at *[pivots][elevs]float64
}

// Prior returns what is known before the first try.
func Prior() *Posterior {
	p := &Posterior{weight: make([]float64, pivots*elevs*scatters*aims)}
	spaceLog(p.pivot[:], float64(PivotLeast), float64(PivotMost))
	spaceLog(p.scatter[:], float64(ScatterLeast), float64(ScatterMost))
	aimWeight := spaceNormal(p.aim[:], float64(AimSpread))
	elevWeight := spaceNormal(p.elev[:], float64(ElevSpread))
	p.each(func(_, e, _ int, row []float64) {
		for a := range row {
			row[a] = elevWeight[e] * aimWeight[a]
		}
	})
	p.normalize()
	return p
}

// each calls a function with every row of weights, a row of aim errors at a time.
func (p *Posterior) each(do func(pivot, elev, scatter int, row []float64)) {
	rest := p.weight
	for l := range pivots {
		for e := range elevs {
			for s := range scatters {
				do(l, e, s, rest[:aims])
				rest = rest[aims:]
			}
		}
	}
}

// spaceLog fills a slice with the middles of equal steps on a logarithmic scale.
func spaceLog(out []float64, lo, hi float64) {
	step := math.Log(hi/lo) / float64(len(out))
	for i := range out {
		out[i] = lo * math.Exp(step*(float64(i)+0.5))
	}
}

// spaceNormal fills a slice with equally spaced points about zero, and gives each
// the weight of its step under a Normal distribution.
func spaceNormal(out []float64, spread float64) []float64 {
	weight := make([]float64, len(out))
	step := 2 * spreadsReach / float64(len(out)-1)
	for i := range out {
		z := -spreadsReach + step*float64(i)
		out[i] = z * spread
		weight[i] = stat.QuickNormal(z+step/2) - stat.QuickNormal(z-step/2)
	}
	return weight
}

// normalize makes the weights sum to one, and computes the marginal distributions.
func (p *Posterior) normalize() {
	sum := 0.0
	for _, w := range p.weight {
		sum += w
	}
	p.byPivot, p.byElev, p.byScatter, p.byAim = [pivots]float64{}, [elevs]float64{}, [scatters]float64{}, [aims]float64{}
	p.each(func(l, e, s int, row []float64) {
		all := 0.0
		for a := range row {
			row[a] /= sum
			all += row[a]
			p.byAim[a] += row[a]
		}
		p.byPivot[l] += all
		p.byElev[e] += all
		p.byScatter[s] += all
	})
}

// Add returns the posterior after one more try. It refuses an impossible try with
// the reason, and one whose ball can't get to the gate with any cue. No outcome is
// impossible, so contradictory tries never leave nothing: they make for a wide
// scatter and a wide interval.
func (p *Posterior) Add(t Try) (*Posterior, error) {
	if err := t.check(); err != nil {
		return nil, err
	}
	at, err := p.table(&t.Shot)
	if err != nil {
		return nil, err
	}
	next := *p
	next.weight = slices.Clone(p.weight)
	next.tries = append(slices.Clip(p.tries), weighed{t, at})
	next.likely(&next.tries[len(p.tries)], func(_ int, row, chance []float64) {
		for a := range row {
			row[a] *= chance[a]
		}
	})
	next.normalize()
	return &next, nil
}

// likely calls a function with every weight and the probability that a try is
// recorded as it was.
func (p *Posterior) likely(t *weighed, do func(pivot int, row, chance []float64)) {
	dist := float64(t.Shot.Gate.Dist)
	from, to := t.Outcome.span(corridor(t.Shot.Gate.Gap, t.Shot.Ball.Radius))
	var shift, chance [aims]float64
	for a := range shift {
		shift[a] = dist * math.Tan(p.aim[a])
	}
	p.each(func(l, e, s int, row []float64) {
		x, per := t.at[l][e], 1/(dist*p.scatter[s])
		for a := range chance {
			chance[a] = noted(0)
			if x != never {
				chance[a] = noted(stat.QuickNormal((to-x-shift[a])*per) - stat.QuickNormal((from-x-shift[a])*per))
			}
		}
		do(l, row, chance[:])
	})
}

// table returns where the path of a shot comes to the gate.
func (p *Posterior) table(s *shot.Shot) (*[pivots][elevs]float64, error) {
	var out [pivots][elevs]float64
	var path motion.Path
	var last error
	at, reached := *s, false
	if spin := p.Reference(); spin != 0 {
		at.Cue.PivotSpin = spin
	}
	for l := range pivots {
		for e := range elevs {
			at.Cue.Pivot = unit.Length(p.pivot[l])
			at.Elevation = off(s.Elevation, unit.Angle(p.elev[e]))
			x, err := crossing(&at, &path)
			if err != nil {
				last, x = err, never
			}
			reached = reached || err == nil
			out[l][e] = x
		}
	}
	if !reached {
		return nil, last
	}
	return &out, nil
}

// Doubt returns the probability that a try, counted from 0 in the order of adding,
// was recorded wrongly. It is near one for a try that contradicts the others.
func (p *Posterior) Doubt(try int) float64 {
	wrong := 0.0
	p.likely(&p.tries[try], func(_ int, row, chance []float64) {
		for a := range row {
			wrong += row[a] * noted(0) / chance[a]
		}
	})
	return wrong
}
