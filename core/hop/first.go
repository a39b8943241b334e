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

// A launch is how a shot's first flight leaves the cloth. Its direction does not depend
// on the speed, since all velocities are proportional to the speed of the stroke.
type launch struct {
	way  vec.V   // unit vector of the travel in plan
	rise float64 // slope: upward velocity divided by forward velocity
	flat float64 // forward velocity for each m/s of the stroke
}

// launchOf returns the launch for a ratio of contact times. Errors: ErrUpright, ErrNoHop,
// or why the ball is not sent.
func launchOf(s *shot.Shot, ratio float64) (l launch, err error) {
	if !(s.Elevation >= 0 && s.Elevation < 90*unit.Degree) {
		return l, ErrUpright
	}
	at := *s
	at.Speed = Most // fast enough that a hop too low to leave the cloth here is none at any speed
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

// FirstFlight returns, in closed form, the lowest speed at which a shot's first flight
// passes over the gate. Every higher speed passes over as well. It is the speed of the
// ball or of the cue, whichever the shot's own is. It returns ErrFlat if no speed passes,
// and the errors of contact.Pass for the gate.
//
// The flight z = rise·x − κx², with κ = g/(2 (flat·speed)²), must stay outside a circle
// of radius q about the blocker, as seen from the side in the plane of the flight. So κ
// is at most the minimum of (rise·x − h(x))/x², where h(x) is the top of the circle. The
// derivative vanishes at the roots of a quartic.
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
		return 0, nil // the flight passes beside both blockers
	}
	return unit.Speed(math.Sqrt(unit.Gravity/(2*bend)) / l.flat), nil
}

// bend returns the greatest κ at which the flight clears a ball at post: +Inf if it
// passes beside it, 0 or less if even a straight line would touch.
func (l *launch) bend(post vec.V, radius unit.Length) float64 {
	along := post.Dot(l.way)
	aside := post.Sub(l.way.Mul(along)).Norm()
	q := float64(HeightOver(unit.Length(aside), radius))
	if q == 0 || along < 0 {
		return math.Inf(1)
	}
	// With u = x − along and t = rise, the derivative of (t x − h)/x² vanishes where t x
	// h = x u + 2h², h² = q² − u². Squared, this is:
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

// LandsBefore returns the greatest speed at which a shot's first flight lands no further
// than dist from the start. It is in closed form: the range of a flight is 2 v_z
// v_flat/g.
func LandsBefore(s *shot.Shot, ratio float64, dist unit.Length) (unit.Speed, error) {
	l, err := launchOf(s, ratio)
	if err != nil {
		return 0, err
	}
	return unit.Speed(math.Sqrt(unit.Gravity*float64(dist)/(2*l.rise)) / l.flat), nil
}
