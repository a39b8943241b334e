package contact

import (
	"errors"
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// Reasons why two balls do not collide.
var (
	ErrMisses = errors.New("the cue ball misses the object ball")
	ErrThin   = errors.New("the cut is too thin: the cue ball is not moving towards the object ball there")
	ErrOver   = errors.New("the cue ball flies over the object ball")
)

// Restitution is e_b, the coefficient of restitution between two balls. Common practice,
// no source.
const Restitution = 0.95

// Friction returns μ_b, the coefficient of friction between two balls at a slip speed in
// m/s. It falls as the speed grows. From memory, a fit to the throw data in Marlow, The
// Physics of Pocket Billiards (1995).
func Friction(slip float64) float64 { return 0.00995 + 0.108*math.Exp(-1.088*slip) }

// An Impact is the state of two equal balls just after a collision. The object ball was
// at rest before it.
type Impact struct {
	Object, Cue motion.State // velocity and spin; positions are not set
	Throw       unit.Angle   // angle in plan from the line of centres to the object ball's velocity, positive to the right
}

// Normal returns the line of centres, a unit vector from the cue ball's centre to the
// object ball's. way is its angle in plan, positive to the right; rise is the height of
// the cue ball's centre above the object ball's, in metres. It returns ErrOver if the cue
// ball is too high to touch.
func Normal(way unit.Angle, rise float64, radius unit.Length) (vec.V, error) {
	down := rise / (2 * float64(radius))
	if !(down < 1) {
		return vec.V{}, ErrOver
	}
	flat := math.Sqrt(1 - down*down)
	return vec.V{X: flat * way.Sin(), Y: flat * way.Cos(), Z: -down}, nil
}

// Collide computes the collision of a cue ball with an equal ball at rest along a line of
// centres. The normal impulse is (1 + e_b) m v_n/2. The tangential impulse opposes the
// slip, in both its horizontal and its vertical part, and has the size min(μ_b J_n,
// m|u|/7), where u is the whole slip velocity before the impact. It returns ErrThin if
// the cue ball is not moving towards the object ball.
//
// Source: Wallace and Schroeder, Am. J. Phys. 56 (1988) 815; Mathavan et al.,
// Sports Eng. 17 (2014).
func Collide(cue motion.State, normal vec.V, radius unit.Length) (Impact, error) {
	r := float64(radius)
	approach := cue.Vel.Dot(normal)
	if !(approach > 0) {
		return Impact{}, ErrThin
	}
	push := (1 + Restitution) * approach / 2 // per unit mass, like the other impulses below
	surface := cue.Vel.Add(cue.Spin.Cross(normal.Mul(r)))
	u := surface.Sub(normal.Mul(surface.Dot(normal)))
	kick := normal.Mul(push)
	var rub vec.V
	if slip := u.Norm(); slip > 0 {
		rub = u.Mul(math.Min(Friction(slip)*push, slip/7) / slip)
	}
	kick = kick.Add(rub)
	// The tangential impulse acts at R n̂ from the cue ball's centre and, reversed, at −R
	// n̂ from the object ball's. So both balls get the same spin from it.
	spin := rub.Cross(normal).Mul(2.5 / r)
	flat := math.Hypot(normal.X, normal.Y)
	along, right := vec.V{X: normal.X / flat, Y: normal.Y / flat}, vec.V{X: normal.Y / flat, Y: -normal.X / flat}
	return Impact{
		Object: motion.State{Vel: kick, Spin: spin},
		Cue:    motion.State{Vel: cue.Vel.Sub(kick), Spin: cue.Spin.Add(spin)},
		Throw:  unit.Angle(math.Atan2(kick.Dot(right), kick.Dot(along))),
	}, nil
}

// Meet returns the time at which a path first touches an equal ball at rest with its
// centre at a given point. It returns ErrMisses if it never does.
func Meet(p *motion.Path, centre vec.V, radius unit.Length) (unit.Span, error) {
	when := meets(p, centre, 2*float64(radius))
	if math.IsInf(when, 1) {
		return 0, ErrMisses
	}
	return unit.Span(when), nil
}
