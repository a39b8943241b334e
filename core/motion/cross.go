package motion

import (
	"errors"
	"math"

	"pivotbench/core/poly"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// ErrStops is a ball that does not get as far as was asked.
var ErrStops = errors.New("the ball stops before it gets there")

// AtLine is when the path first crosses the line across the table at y,
// outward (from the start), in the air or not. ErrStops when it never does.
func (p *Path) AtLine(y unit.Length) (unit.Span, error) { return p.first(line, y) }

// AtCircle is when the path first crosses the circle of radius d about the
// start, seen in plan, outward, in the air or not. ErrStops when it never
// does.
func (p *Path) AtCircle(d unit.Length) (unit.Span, error) { return p.first(circle, d) }

// A curve is what a path can cross.
type curve int

const (
	line   curve = iota // across the table
	circle              // about the start
)

// short is how far short of a curve the ball is, negative before it, as a
// polynomial in the time since the segment began.
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
			return s.Begin, nil // where two segments meet, rounding hides the root from both
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

// DistanceSquared is the square of the distance from a point, as a polynomial
// in the time since the segment began. Each axis counts by its weight: 1 for
// those that matter, 0 for those that don't.
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

// Bearing is the plan angle of a point seen from the start, positive to the
// right of the aim line.
func Bearing(v vec.V) unit.Angle { return unit.Angle(math.Atan2(v.X, v.Y)) }
