package sitting

import (
	"math"

	"pivotbench/core/stat"
)

// tiny is the largest value of a row below which the row is scaled again, and so is its
// inverse above which.
const tiny = 1e-100

// chances holds the likelihoods of a batch along the grid, with what they are computed
// from. It is reused from point to point.
type chances struct{ at, right, all [pivots]float64 }

// of returns the likelihood of the sights of a batch, a product of probabilities and
// densities, at point i of the cloud for the pivot lengths of the half-open span from, to.
// That of one sight is 0, but for a recording error, where the ball never reaches the
// line: both tables are 0 at infinity and at what is not a number.
func (c *chances) of(b batch, l *cloud, i, from, to int) []float64 {
	n := to - from
	at, right, all := c.at[:n], c.right[:n], c.all[:n]
	in := l.of[b[0].Sitting]
	sigma, bias := l.sigma[i], l.bias(i)+b[0].setUp.moved(&b[0].Shot, &in.z[i])
	copy(all, flat[:])
	var placed *forecast // that at is of
	for _, w := range b {
		if w == b[0] || len(w.seen) > 1 {
			copy(right, recorded[:]) // right is the part of strokes that are recorded rightly
		}
		odds := wrong * w.seen[0].odds
		for j := range w.seen {
			s := &w.seen[j]
			if w.where[j] != placed {
				placed = w.where[j]
				placed.at(&in.row[i], from, at)
			}
			shift := s.turn * bias
			sd := math.Abs(s.turn) * sigma
			if s.exact {
				sd = math.Sqrt(sd*sd + s.read*s.read)
			}
			per := 1 / sd
			low, high := (s.from-shift)*per, (s.to-shift)*per
			// Each loop is a single pass, which a browser runs about twice as fast as two.
			switch {
			case w.swap > 0: // a gate or a mark
				across := scalar{from: -s.to, to: -s.from, exact: s.exact}
				if s.exact {
					across.from = -s.from
				}
				for k := range all {
					x := shift + at[k]
					all[k] *= right[k]*((1-w.swap)*s.chance(x, per)+w.swap*across.chance(x, per)) + odds
				}
			case !s.exact: // a gate is a single scalar
				for k := range all {
					x := at[k] * per
					all[k] *= right[k]*(stat.QuickNormal(high-x)-stat.QuickNormal(low-x)) + odds
				}
			case j < len(w.seen)-1:
				for k := range right {
					right[k] *= stat.QuickDensity(low-at[k]*per) * per
				}
			default:
				for k := range all {
					all[k] *= right[k]*stat.QuickDensity(low-at[k]*per)*per + odds
				}
			}
		}
	}
	return all
}

// chance returns the probability of the range, or the density of the number, when the
// number is Normal with mean x and the inverse of its standard deviation is per.
func (s *scalar) chance(x, per float64) float64 {
	if s.exact {
		return stat.QuickDensity((s.from-x)*per) * per
	}
	return stat.QuickNormal((s.to-x)*per) - stat.QuickNormal((s.from-x)*per)
}

// recorded is the share of strokes that are recorded rightly, for every pivot length.
var recorded = func() (out [pivots]float64) {
	for k := range out {
		out[k] = 1 - wrong
	}
	return out
}()
