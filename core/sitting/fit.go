package sitting

import (
	"math"

	"pivotbench/core/unit"
)

// A Misfit is a pattern in a sitting's strokes that the model does not explain.
type Misfit int

// The misfits.
const (
	Fits    Misfit = iota
	Swapped        // left and right were recorded the wrong way round
	OneOff         // one stroke contradicts the others
	Drifts         // the strokes move steadily to one side
)

// Fit returns the misfit that the strokes show, and for OneOff the index of the
// stroke, counted from 0. It compares each hypothesis with the strokes as recorded
// by their Bayes factor.
func (p *Posterior) Fit() (Misfit, int) { return p.FitWhile(func() bool { return true }) }

// FitWhile is Fit for a program that may need to stop it early. It calls on before
// every step, as AddWhile does. When on returns false,
// FitWhile stops and returns Fits.
func (p *Posterior) FitWhile(on func() bool) (Misfit, int) {
	const few = 4 // fewer strokes than this show no pattern
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
	// The drift from the first stroke to the last is Normal about 0 with standard
	// deviation drift. The integral over it is a four-point Gauss-Hermite rule:
	// Abramowitz and Stegun, 25.4.46.
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

// evidence returns the logarithm of the Bayes factor of the altered strokes
// against the strokes as recorded. It returns minus infinity when an altered
// stroke is impossible or on returns false.
func (p *Posterior) evidence(on func() bool, alter func(i int, k Stroke) Stroke) float64 {
	q := p.unplayed()
	for i := range p.strokes {
		next, err := q.AddWhile(alter(i, p.strokes[i].Stroke), on)
		if err != nil {
			return math.Inf(-1)
		}
		q = next
	}
	return q.logOdds - p.logOdds
}

// mirrored returns a stroke with left and right swapped in its sight.
func mirrored(_ int, k Stroke) Stroke {
	k.Seen = k.Seen.mirror()
	return k
}
