// Package poly finds where a short polynomial is zero on an interval. The
// ball's paths are parabolas in time, so the moment one crosses a line is a
// root of a quadratic, a circle a root of a quartic, and the moment it is
// nearest to a point a root of a cubic.
package poly

import "math"

// Quartic holds the coefficients of c₀ + c₁t + c₂t² + c₃t³ + c₄t⁴; lower
// degrees leave the last ones zero.
type Quartic [5]float64

// At is the value at t.
func (p *Quartic) At(t float64) float64 {
	return p[0] + t*(p[1]+t*(p[2]+t*(p[3]+t*p[4])))
}

// Derivative is the polynomial's derivative.
func (p *Quartic) Derivative() Quartic {
	return Quartic{p[1], 2 * p[2], 3 * p[3], 4 * p[4]}
}

// Roots are the points of [lo, hi] where the polynomial changes sign, in
// order; n of the four are set. Between two neighbouring roots of its
// derivative a polynomial is monotone, so each such stretch holds at most one
// root, and a bracketed Newton iteration can't miss it. A double root, where
// the polynomial touches zero and turns back, is not a change of sign.
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

// turns are the points between lo and hi where the derivative changes sign, in
// order. Up to a cubic they have a closed form.
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

// bracket finds the root between a and b, where the polynomial is monotone
// and of opposite signs; fa is its value at a.
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
		if !(next > a && next < b) { // also when the slope is zero
			next = a + (b-a)/2
		}
		if math.Abs(next-t) <= 2.3e-16*math.Abs(t) || next == a || next == b {
			return next
		}
		t = next
	}
	return t
}
