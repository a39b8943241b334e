package motion

import (
	"errors"
	"math"

	"pivotbench/core/poly"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// ErrStops means that the ball stops before it gets to the place asked for.
var ErrStops = errors.New("the ball stops before it gets there")

// AtLine returns the time at which the path first crosses the line across the table at y,
// outward from the start, on the cloth or in the air. It returns ErrStops if the path
// never does.
func (p *Path) AtLine(y unit.Length) (unit.Span, error) { return p.first(line, y) }

// AtCircle returns the time at which the path first crosses, in plan, the circle of
// radius d about the start, outward, on the cloth or in the air. It returns ErrStops if
// the path never does.
func (p *Path) AtCircle(d unit.Length) (unit.Span, error) { return p.first(circle, d) }

// A curve is a kind of curve whose crossing can be found.
type curve int

const (
	line   curve = iota // across the table
	circle              // about the start
)

// short returns, as a polynomial in the time since the segment began, an expression that
// is negative before the curve, zero on it and positive beyond.
func (s *Segment) short(c curve, d unit.Length) poly.Quartic {
	if c == line {
		return poly.Quartic{s.From.Pos.Y - float64(d), s.From.Vel.Y, s.Acc.Y / 2}
	}
	q := s.DistanceSquared(vec.V{}, vec.V{X: 1, Y: 1})
	q[0] -= float64(d * d)
	return q
}

func (p *Path) first(c curve, d unit.Length) (unit.Span, error) {
	var before bool
	for i := range p.Segments() {
		s := &p.segs[i]
		q := s.short(c, d)
		if i == 0 {
			before = q[0] < 0
		} else if before != (q[0] < 0) {
			return s.Begin, nil // rounding can hide a root where two segments meet
		}
		if s.Phase == Rest {
			break
		}
		if roots, n := q.Roots(0, float64(s.Length)); n > 0 {
			return s.Begin + unit.Span(roots[0]), nil
		}
	}
	return 0, ErrStops
}

// DistanceSquared returns the squared distance from a point, as a polynomial in the time
// since the segment began. Each axis is multiplied by its weight: 1 to count it, 0 to
// leave it out.
func (s *Segment) DistanceSquared(point, weight vec.V) poly.Quartic {
	var q poly.Quartic
	add := func(p, v, a, w float64) {
		q[0] += w * p * p
		q[1] += w * 2 * p * v
		q[2] += w * (v*v + p*a)
		q[3] += w * v * a
		q[4] += w * a * a / 4
	}
	f := s.From.Pos.Sub(point)
	add(f.X, s.From.Vel.X, s.Acc.X, weight.X)
	add(f.Y, s.From.Vel.Y, s.Acc.Y, weight.Y)
	add(f.Z, s.From.Vel.Z, s.Acc.Z, weight.Z)
	return q
}

// Bearing returns the angle in plan of a point as seen from the start, positive to the
// right of the aim line.
func Bearing(v vec.V) unit.Angle { return unit.Angle(math.Atan2(v.X, v.Y)) }
