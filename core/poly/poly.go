// Package poly finds the zeros of polynomials up to degree four on an interval. The
// ball's paths are parabolas in time, so the time at which one crosses a line is a root
// of a quadratic, a circle a root of a quartic, and the time at which it is nearest to a
// point a root of a cubic.
package poly

import "math"

// Quartic holds the coefficients of c₀ + c₁t + c₂t² + c₃t³ + c₄t⁴. The last ones are zero
// for lower degrees.
type Quartic [5]float64

// At returns the value at t.
func (p *Quartic) At(t float64) float64 {
	return p[0] + t*(p[1]+t*(p[2]+t*(p[3]+t*p[4])))
}

// Derivative returns the derivative.
func (p *Quartic) Derivative() Quartic {
	return Quartic{p[1], 2 * p[2], 3 * p[3], 4 * p[4]}
}

// Roots returns the points of [lo, hi] where the polynomial changes sign, in ascending
// order; n is their number. Between neighbouring roots of its derivative a polynomial is
// monotone, so there is at most one root in between, and a bracketed Newton iteration
// cannot miss it. A double root, where the polynomial touches zero without changing sign,
// is not returned.
func (p *Quartic) Roots(lo, hi float64) (roots [4]float64, n int) {
	turns, m := p.turns(lo, hi)
	a, fa := lo, p.At(lo)
	for i := 0; i <= m; i++ {
		b := hi
		if i < m {
			b = turns[i]
		}
		fb := p.At(b)
		if fa < 0 != (fb < 0) {
			roots[n] = p.bracket(a, b, fa)
			n++
		}
		a, fa = b, fb
	}
	return roots, n
}

// turns returns the points between lo and hi where the derivative changes sign, in
// ascending order. Up to degree three they have a closed form.
func (p *Quartic) turns(lo, hi float64) (turns [4]float64, n int) {
	d := p.Derivative()
	if d[3] != 0 {
		return d.Roots(lo, hi)
	}
	a, b, c := d[2], d[1], d[0]
	first, second := math.Inf(1), math.Inf(1)
	if a == 0 {
		first = -c / b
	} else if disc := b*b - 4*a*c; disc > 0 {
		q := -(b + math.Copysign(math.Sqrt(disc), b)) / 2
		first, second = min(q/a, c/q), max(q/a, c/q)
	}
	for _, t := range [2]float64{first, second} {
		if t > lo && t < hi {
			turns[n] = t
			n++
		}
	}
	return turns, n
}

// bracket returns the root between a and b. The polynomial must be monotone there, with
// opposite signs at the ends; fa is its value at a.
func (p *Quartic) bracket(a, b, fa float64) float64 {
	d := p.Derivative()
	t := a + (b-a)/2
	for range 100 {
		f := p.At(t)
		if f == 0 {
			return t
		}
		if f < 0 == (fa < 0) {
			a = t
		} else {
			b = t
		}
		next := t - f/d.At(t)
		if !(next > a && next < b) { // also if the slope is zero
			next = a + (b-a)/2
		}
		if math.Abs(next-t) <= 2.3e-16*math.Abs(t) || next == a || next == b {
			return next
		}
		t = next
	}
	return t
}
