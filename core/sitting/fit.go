package sitting

import (
	"math"

	"pivotbench/core/unit"
)

// A Misfit is what a sitting's strokes look like as a whole.
type Misfit int

// The misfits.
const (
	Fits    Misfit = iota
	Swapped        // left and right were noted the wrong way round
	OneOff         // one stroke can't be squared with the others
	Drifts         // the strokes move to one side as they go on
)

// Fit returns what the strokes look like, and for OneOff which of them, counted
// from 0. Each suspicion is weighed against the strokes as they were noted, by
// how likely either makes what was seen.
func (p *Posterior) Fit() (Misfit, int) { return p.FitWhile(func() bool { return true }) }

// FitWhile is Fit for a program that has other work: on is called before every
// step, of which each takes as long as a stroke does to weigh. When it returns
// false, FitWhile gives up and returns Fits.
func (p *Posterior) FitWhile(on func() bool) (Misfit, int) {
	const few = 4 // strokes that no pattern shows in
	if p.N() < few {
		return Fits, 0
	}
	if p.evidence(on, mirrored) > math.Log(20) {
		return Swapped, 0
	}
	for i := range p.strokes {
		if on() && p.Doubt(i) > 0.5 {
			return OneOff, i
		}
	}
	// A drift of up to so much from the first stroke to the last, Normal about
	// none, by Gauss's rule with four points: Abramowitz and Stegun, 25.4.46.
	const drift = 0.5 * math.Pi / 180
	factor := 0.0
	for _, node := range [...]struct{ at, weight float64 }{{0.7419637843, 0.4541241452}, {2.3344142183, 0.0458758548}} {
		for _, sign := range [...]float64{1, -1} {
			factor += node.weight * math.Exp(p.evidence(on, func(i int, k Stroke) Stroke {
				part := float64(i)/float64(p.N()-1) - 0.5
				k.Shot.AimOff += unit.Angle(sign * node.at * drift * part)
				return k
			}))
		}
	}
	if factor > 10 {
		return Drifts, 0
	}
	return Fits, 0
}

// evidence returns the logarithm of how much likelier strokes that are altered
// make what was seen; that they can't, once on says no.
func (p *Posterior) evidence(on func() bool, alter func(i int, k Stroke) Stroke) float64 {
	q := Prior(p.setUp)
	for i := range p.strokes {
		if !on() {
			return math.Inf(-1)
		}
		next, err := q.Add(alter(i, p.strokes[i].Stroke))
		if err != nil {
			return math.Inf(-1)
		}
		q = next
	}
	return q.logOdds - p.logOdds
}

// mirrored is a stroke with left and right changed round in what was seen.
func mirrored(_ int, k Stroke) Stroke {
	k.Seen = k.Seen.mirror()
	return k
}
