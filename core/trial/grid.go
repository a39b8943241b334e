package trial

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Posterior is what is known after some tries: a weight for every
// combination of pivot length, scatter, aim error and elevation error on a
// grid.
type Posterior struct {
	pivot   [pivots]float64   // metres
	scatter [scatters]float64 // radians
	aim     [aims]float64     // radians
	elev    [elevs]float64    // radians
	weight  []float64         // pivot, elev, scatter, aim, the last running fastest
	shot    shot.Shot         // of the last try, for ball, tip and reference offset
	n       int
}

// Prior is what is known before the first try.
func Prior() *Posterior {
	p := &Posterior{weight: make([]float64, pivots*elevs*scatters*aims)}
	spaceLog(p.pivot[:], float64(PivotLeast), float64(PivotMost))
	spaceLog(p.scatter[:], float64(ScatterLeast), float64(ScatterMost))
	aimWeight := spaceNormal(p.aim[:], float64(AimSpread))
	elevWeight := spaceNormal(p.elev[:], float64(ElevSpread))
	for i := range p.weight {
		_, e, _, a := cell(i)
		p.weight[i] = elevWeight[e] * aimWeight[a]
	}
	normalise(p.weight)
	return p
}

// spaceLog fills a slice with the middles of equal steps of the logarithm.
func spaceLog(out []float64, lo, hi float64) {
	step := math.Log(hi/lo) / float64(len(out))
	for i := range out {
		out[i] = lo * math.Exp(step*(float64(i)+0.5))
	}
}

// spaceNormal fills a slice with equally spaced points about zero, and gives
// each the weight of its step under a Normal distribution.
func spaceNormal(out []float64, spread float64) []float64 {
	weight := make([]float64, len(out))
	step := 2 * spreadsReach / float64(len(out)-1)
	for i := range out {
		z := -spreadsReach + step*float64(i)
		out[i] = z * spread
		weight[i] = normal(z+step/2) - normal(z-step/2)
	}
	return weight
}

func normalise(w []float64) {
	sum := 0.0
	for _, v := range w {
		sum += v
	}
	for i := range w {
		w[i] /= sum
	}
}

// Add is the posterior after one more try. A try whose ball can't get to the
// gate with any cue is refused, with the reason.
func (p *Posterior) Add(t Try) (*Posterior, error) {
	table, err := p.table(&t.Shot)
	if err != nil {
		return nil, err
	}
	next := *p
	next.weight = append([]float64(nil), p.weight...)
	next.shot, next.n = t.Shot, p.n+1
	bound, dist := bounds(&t.Shot), float64(t.Shot.Gate.Dist)
	for i := range next.weight {
		if next.weight[i] == 0 {
			continue
		}
		l, e, s, a := cell(i)
		next.weight[i] *= chances(table[l][e]+dist*math.Tan(p.aim[a]), dist*p.scatter[s], bound)[t.Outcome]
	}
	normalise(next.weight)
	return &next, nil
}

// cell is the place of a weight on the grid.
func cell(i int) (pivot, elev, scatter, aim int) {
	i, aim = i/aims, i%aims
	i, scatter = i/scatters, i%scatters
	return i / elevs, i % elevs, scatter, aim
}

// never is a place no ball comes to: a cue with which the stroke would have
// been a miscue or stopped short did not make a try that was noted down.
var never = math.Inf(1)

// table is where the path of a shot comes to the gate, for every pivot length
// and elevation error of the grid.
func (p *Posterior) table(s *shot.Shot) (*[pivots][elevs]float64, error) {
	var out [pivots][elevs]float64
	var path motion.Path
	var last error
	at, reached := *s, false
	for l := range pivots {
		for e := range elevs {
			at.Cue.Pivot = unit.Length(p.pivot[l])
			at.Elevation = min(max(s.Elevation+unit.Angle(p.elev[e]), 0), 89*unit.Degree)
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
