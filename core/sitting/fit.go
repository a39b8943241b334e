package sitting

import (
	"math"

	"pivotbench/core/unit"
)

// A Misfit is a pattern in a sitting's strokes that the model does not explain.
type Misfit int

// The misfits.
const (
	Fits        Misfit = iota
	Swapped            // left and right were recorded the wrong way round
	SomeSwapped        // the same for some of the strokes
	TwoPlaces          // strokes played alike landed in two places
	OneOff             // single strokes contradict the others
	Drifts             // the strokes move steadily to one side
)

// patterned is the number of strokes that a pattern is looked for in: more would take
// longer and say no more.
const patterned = 100

// Fit returns the misfit that the strokes show, and the strokes that it is about, counted
// from 0: for SomeSwapped those that were swapped, for TwoPlaces those in the place with
// fewer strokes, and for OneOff those that were probably recorded wrongly. It compares
// each hypothesis with the strokes as recorded by their Bayes factor. The patterns of a
// long sitting are looked for in a part of its strokes.
func (p *Posterior) Fit() (Misfit, []int) { return p.FitWhile(func() bool { return true }) }

// FitWhile is Fit for a program that may need to stop it early. It calls on before
// every step, as AddWhile does. When on returns false,
// FitWhile stops and returns Fits.
func (p *Posterior) FitWhile(on func() bool) (Misfit, []int) {
	const few = 4 // fewer strokes than this show no pattern
	if p.N() < few {
		return Fits, nil
	}
	among := p.sample(patterned)
	_, asRecorded := p.evidence(on, among, nil, func(_ int, k Stroke) Stroke { return k })
	if _, other := p.evidence(on, among, asRecorded, mirrored); bayes(other, asRecorded) > 20 {
		return Swapped, nil
	}
	if strokes := p.someSwapped(on, among, asRecorded); strokes != nil {
		return SomeSwapped, strokes
	}
	two, there := p.twoPlaces()
	var off []int
	for i := range p.strokes {
		if !on() {
			return Fits, nil
		}
		if p.Doubt(i) > 0.5 {
			off = append(off, i)
		}
	}
	if off != nil && two < sureOfPlaces {
		return OneOff, off
	}
	// The drift from the first stroke to the last is Normal about 0 with standard
	// deviation drift. The integral over it is a four-point Gauss-Hermite rule:
	// Abramowitz and Stegun, 25.4.46.
	const drift = 0.5 * math.Pi / 180
	factor := 0.0
	for _, node := range [...]struct{ at, weight float64 }{{0.7419637843, 0.4541241452}, {2.3344142183, 0.0458758548}} {
		for _, sign := range [...]float64{1, -1} {
			_, moved := p.evidence(on, among, asRecorded, func(i int, k Stroke) Stroke {
				part := float64(i)/float64(p.N()-1) - 0.5
				k.Shot.AimOff += unit.Angle(sign * node.at * drift * part)
				return k
			})
			factor += node.weight * bayes(moved, asRecorded)
		}
	}
	switch {
	case !on():
		return Fits, nil
	case factor > 10 && factor > two:
		return Drifts, nil
	case two > sureOfPlaces:
		return TwoPlaces, there
	}
	return Fits, nil
}

// sample returns the indices of at most n strokes from all over the sitting, in order:
// one in every nth part, at a place that differs from part to part. Strokes evenly
// spaced could all be of one side, since players take the sides in turn.
func (p *Posterior) sample(n int) []int {
	out := make([]int, min(p.N(), n))
	for i := range out {
		from, to := i*p.N()/len(out), (i+1)*p.N()/len(out)
		_, place := math.Modf(float64(i) * math.Phi) // Weyl's sequence: it is even and never repeats
		out[i] = from + int(place*float64(to-from))
	}
	return out
}

// hopeless is how much less probable than the strokes as recorded, as a logarithm,
// altered strokes are when nothing that follows is thought to make up for it.
const hopeless = 20

// evidence returns the posterior after some of the strokes, altered, and the logarithm of
// their likelihood, averaged over the unknowns, after each of them. It ends early when an
// altered stroke is impossible, when the likelihood falls hopelessly behind that of
// against, or when on returns false.
func (p *Posterior) evidence(on func() bool, among []int, against []float64, alter func(i int, k Stroke) Stroke) (q *Posterior, after []float64) {
	q = p.unplayed()
	for n, i := range among {
		next, err := q.AddWhile(alter(i, p.strokes[i].Stroke), on)
		if err != nil {
			break
		}
		q, after = next, append(after, next.logOdds)
		if n < len(against) && q.logOdds < against[n]-hopeless {
			break
		}
	}
	return q, after
}

// bayes returns the Bayes factor of altered strokes against those as recorded, from their
// evidence. It is 0 when either ended early.
func bayes(altered, asRecorded []float64) float64 {
	if len(altered) == 0 || len(altered) < len(asRecorded) {
		return 0
	}
	last := len(altered) - 1
	return math.Exp(altered[last] - asRecorded[last])
}

// mirrored returns a stroke with left and right swapped in its sight.
func mirrored(_ int, k Stroke) Stroke {
	k.Seen = k.Seen.mirror()
	return k
}
