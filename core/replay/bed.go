package replay

import (
	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/poly"
	"pivotbench/core/unit"
)

// A Bed is the position of a table's cushions relative to a cue ball at rest on the long
// centre line: the side cushions are at ±Half, the end cushion behind it at Near, which
// is negative, and the one ahead at Far.
type Bed struct{ Half, Near, Far unit.Length }

// Lay returns the bed for a ball a quarter of the way up a table, or nearer to the end
// behind it if it needs the room ahead.
func Lay(t gear.Table, radius, ahead unit.Length) Bed {
	behind := max(radius, min(t.Length/4, t.Length-ahead))
	return Bed{Half: t.Width / 2, Near: -behind, Far: t.Length - behind}
}

// leaves returns the time at which a ball first reaches a cushion. Its path starts at (x,
// y). ok is false if it stops before.
func (b *Bed) leaves(p *motion.Path, x, y float64, radius unit.Length) (when unit.Span, ok bool) {
	half, near, far := float64(b.Half-radius), float64(b.Near+radius), float64(b.Far-radius)
	for i := range p.Segments() {
		s := &p.Segments()[i]
		if s.Phase == motion.Rest {
			break
		}
		first := float64(s.Length)
		for _, past := range []poly.Quartic{ // each is positive beyond its cushion
			{s.From.Pos.X + x - half, s.From.Vel.X, s.Acc.X / 2},
			{-half - s.From.Pos.X - x, -s.From.Vel.X, -s.Acc.X / 2},
			{s.From.Pos.Y + y - far, s.From.Vel.Y, s.Acc.Y / 2},
			{near - s.From.Pos.Y - y, -s.From.Vel.Y, -s.Acc.Y / 2},
		} {
			switch beyond := past[0] >= 0; {
			case beyond && past[1] > 0: // the ball starts at the cushion and moves towards it
				return s.Begin, true
			case beyond:
				continue // it starts there and moves away
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
