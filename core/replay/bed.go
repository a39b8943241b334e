package replay

import (
	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/poly"
	"pivotbench/core/unit"
)

// A Bed is where a table's cushions are, seen from the cue ball at rest on the
// long centre line: at Half to either side, at Near behind it, which is
// negative, and at Far ahead.
type Bed struct{ Half, Near, Far unit.Length }

// Lay puts a ball of a radius a quarter of the way up a table, or so much
// nearer to the end behind it that it has room ahead.
func Lay(t gear.Table, radius, ahead unit.Length) Bed {
	behind := max(radius, min(t.Length/4, t.Length-ahead))
	return Bed{Half: t.Width / 2, Near: -behind, Far: t.Length - behind}
}

// leaves is when a ball first reaches a cushion: its path runs on from a start
// at (x, y). ok is false where it stops before.
func (b *Bed) leaves(p *motion.Path, x, y float64, radius unit.Length) (when unit.Span, ok bool) {
	half, near, far := float64(b.Half-radius), float64(b.Near+radius), float64(b.Far-radius)
	for i := range p.Segments() {
		s := &p.Segments()[i]
		if s.Phase == motion.Rest {
			break
		}
		first := float64(s.Length)
		for _, past := range []poly.Quartic{ // each positive beyond its cushion
			{s.From.Pos.X + x - half, s.From.Vel.X, s.Acc.X / 2},
			{-half - s.From.Pos.X - x, -s.From.Vel.X, -s.Acc.X / 2},
			{s.From.Pos.Y + y - far, s.From.Vel.Y, s.Acc.Y / 2},
			{near - s.From.Pos.Y - y, -s.From.Vel.Y, -s.Acc.Y / 2},
		} {
			switch beyond := past[0] >= 0; {
			case beyond && past[1] > 0: // it lies at the cushion and goes there
				return s.Begin, true
			case beyond:
				continue // it lies there and goes away
			}
			if roots, n := past.Roots(0, float64(s.Length)); n > 0 && roots[0] <= first {
				first, ok = roots[0], true
			}
		}
		if ok {
			return s.Begin + unit.Span(first), true
		}
	}
	return 0, false
}
