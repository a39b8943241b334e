package hop

import (
	"math"

	"pivotbench/core/contact"
	"pivotbench/core/motion"
	"pivotbench/core/poly"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A launch is how a shot's first flight leaves the cloth, whatever the speed:
// all velocities grow with the speed of the stroke, so the direction stays.
type launch struct {
	way  vec.V   // unit vector of travel in plan
	rise float64 // slope: upward over forward velocity
	flat float64 // forward velocity for each of the stroke's speed
}

// launchOf finds it for a ratio of contact times. ErrUpright, ErrNoHop or why
// the ball is never sent.
func launchOf(s *shot.Shot, ratio float64) (l launch, err error) {
	if !(s.Elevation >= 0 && s.Elevation < 90*unit.Degree) {
		return l, ErrUpright
	}
	at := *s
	at.Speed = Most // so fast that a hop too low to leave the cloth is none at any speed
	var p motion.Path
	if err = Send(&at, ratio, &p); err != nil {
		return l, err
	}
	first := &p.Segments()[0]
	plan := first.From.Vel.Plan()
	flat := plan.Norm()
	if first.Phase != motion.Fly || flat == 0 {
		return l, ErrNoHop
	}
	return launch{way: plan.Mul(1 / flat), rise: first.From.Vel.Z / flat, flat: flat / float64(Most)}, nil
}

// FirstFlight is the least speed at which a shot's first flight passes over
// the gate, in closed form; every greater speed passes over too. It is the
// ball's or the cue's as the shot's own is. ErrFlat when no speed does; the
// gate's own errors as in contact.Pass.
//
// The flight z = rise·x − κx², κ = g/(2 (flat·speed)²), must stay outside a
// circle of radius q about the blocker, seen from the side in the plane of the
// flight; so κ is at most the least of (rise·x − h(x))/x² over that circle's
// top, h(x). Where its derivative vanishes is a quartic.
func FirstFlight(s *shot.Shot, ratio float64) (unit.Speed, error) {
	l, err := launchOf(s, ratio)
	if err != nil {
		return 0, err
	}
	if err = contact.Check(s.Gate, s.Ball.Radius); err != nil {
		return 0, err
	}
	left, right := contact.Posts(s.Gate, s.Ball.Radius)
	bend := math.Min(l.bend(left, s.Ball.Radius), l.bend(right, s.Ball.Radius))
	switch {
	case bend <= 0:
		return 0, ErrFlat
	case math.IsInf(bend, 1):
		return 0, nil // the flight passes beside both
	}
	return unit.Speed(math.Sqrt(unit.Gravity/(2*bend)) / l.flat), nil
}

// bend is the greatest κ at which the flight clears a ball there: +Inf when it
// passes beside, zero or less when even a straight line would touch.
func (l *launch) bend(post vec.V, radius unit.Length) float64 {
	along := post.Dot(l.way)
	aside := post.Sub(l.way.Mul(along)).Norm()
	q := float64(HeightOver(unit.Length(aside), radius))
	if q == 0 || along < 0 {
		return math.Inf(1)
	}
	// With u = x − along and t = rise the derivative of (t x − h)/x² vanishes
	// where t x h = x u + 2h², h² = q² − u²; squared:
	a, t2, q2 := along, l.rise*l.rise, q*q
	quartic := poly.Quartic{
		(4*q2 - t2*a*a) * q2,
		(4 - 2*t2) * a * q2,
		a*a - 4*q2 - t2*(q2-a*a),
		-2 * a * (1 - t2),
		1 + t2,
	}
	least := math.Inf(1)
	roots, n := quartic.Roots(-q, q)
	for _, u := range roots[:n] {
		x := along + u
		least = math.Min(least, (l.rise*x-math.Sqrt(math.Max(0, q2-u*u)))/(x*x))
	}
	return least
}

// LandsBefore is the greatest speed at which a shot's first flight comes down
// no further than a distance from the start: the reach of a flight is
// 2 v_z v_flat/g. Closed form.
func LandsBefore(s *shot.Shot, ratio float64, dist unit.Length) (unit.Speed, error) {
	l, err := launchOf(s, ratio)
	if err != nil {
		return 0, err
	}
	return unit.Speed(math.Sqrt(unit.Gravity*float64(dist)/(2*l.rise)) / l.flat), nil
}
