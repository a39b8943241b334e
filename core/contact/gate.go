// Package contact computes contacts between balls: the cue ball passing a gate of two
// blockers, and its collision with an object ball.
package contact

import (
	"errors"
	"math"

	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// Errors of gates.
var (
	ErrNoGate  = errors.New("no blockers are set")
	ErrOverlap = errors.New("the blockers touch the cue ball at rest: widen the gap or move the gate away")
)

// An Outcome is what happens to a ball at a gate.
type Outcome int

// The outcomes. Left and Right name the blocker that is touched first.
const (
	Clean Outcome = iota
	Left
	Right
	Short // stops before the gate
)

// A Passage compares the unobstructed path with a gate. A clearance is the least
// distance of the ball's centre from a blocker's centre, in three dimensions and
// along the whole path, less 2R. It is negative if the two touch.
type Passage struct {
	Outcome     Outcome
	Left, Right unit.Length
}

// Posts returns the centres of the blockers.
func Posts(gate gear.Gate, radius unit.Length) (left, right vec.V) {
	x := float64(gate.Gap/2 + radius)
	return vec.V{X: -x, Y: float64(gate.Dist)}, vec.V{X: x, Y: float64(gate.Dist)}
}

// Check returns ErrNoGate or ErrOverlap if no ball can be sent at the gate, and nil
// otherwise.
func Check(gate gear.Gate, radius unit.Length) error {
	if gate.Dist == 0 {
		return ErrNoGate
	}
	if l, _ := Posts(gate, radius); l.Norm() < 2*float64(radius) {
		return ErrOverlap
	}
	return nil
}

// Pass compares a path with a gate. Errors: ErrNoGate, ErrOverlap.
func Pass(p *motion.Path, gate gear.Gate, radius unit.Length) (Passage, error) {
	if err := Check(gate, radius); err != nil {
		return Passage{}, err
	}
	l, r := Posts(gate, radius)
	touch := 2 * float64(radius)
	left, right := nearest(p, l)-touch, nearest(p, r)-touch
	pass := Passage{Left: unit.Length(left), Right: unit.Length(right)}
	switch {
	case left < 0 && right < 0:
		pass.Outcome = Left
		if meets(p, r, touch) < meets(p, l, touch) {
			pass.Outcome = Right
		}
	case left < 0:
		pass.Outcome = Left
	case right < 0:
		pass.Outcome = Right
	default:
		if _, err := p.AtLine(gate.Dist); err != nil {
			pass.Outcome = Short
		}
	}
	return pass, nil
}

// all gives the three axes the same weight.
var all = vec.V{X: 1, Y: 1, Z: 1}

// nearest returns the least distance of a path from a point.
func nearest(p *motion.Path, point vec.V) float64 {
	best := math.Inf(1)
	for i := range p.Segments() {
		s := &p.Segments()[i]
		from := s.From.Pos.Sub(point)
		start := from.Norm()
		best = math.Min(best, start)
		if s.Phase == motion.Rest || s.Phase == motion.Roll && from.Dot(s.From.Vel) >= 0 {
			break // from here on it is at rest or rolls straight away from the point
		}
		t := float64(s.Length)
		if start-farthest(s) >= best {
			continue // it cannot come nearer in this segment
		}
		q := s.DistanceSquared(point, all)
		d := q.Derivative()
		turns, n := d.Roots(0, t)
		for _, turn := range turns[:n] {
			best = math.Min(best, math.Sqrt(math.Max(0, q.At(turn))))
		}
	}
	return best
}

// farthest returns an upper bound of how far a ball moves in a segment.
func farthest(s *motion.Segment) float64 {
	t := float64(s.Length)
	return t * (s.From.Vel.Norm() + t*s.Acc.Norm()/2)
}

// meets returns when a path first comes within a distance of a point, or +Inf.
func meets(p *motion.Path, point vec.V, within float64) float64 {
	for i := range p.Segments() {
		s := &p.Segments()[i]
		q := s.DistanceSquared(point, all)
		q[0] -= within * within
		if q[0] < 0 {
			return float64(s.Begin) // rounding can hide a root where two segments meet
		}
		if s.Phase == motion.Rest {
			break
		}
		t := float64(s.Length)
		if math.Sqrt(q[0]+within*within)-farthest(s) > within {
			continue
		}
		if roots, n := q.Roots(0, t); n > 0 {
			return float64(s.Begin) + roots[0]
		}
	}
	return math.Inf(1)
}
