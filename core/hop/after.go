package hop

import (
	"pivotbench/core/contact"
	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A Turn is what english does to the way of a ball that flies: bearings of its
// travel in plan, positive to the right.
type Turn struct {
	Air   unit.Angle // in the flight: the launch, and what the cloth did at the strike
	Down  unit.Angle // once the cloth has answered the landing
	Rolls unit.Angle // once it rolls for good
	Side  float64    // sidespin as it lands, rad/s, positive for right english
}

// Turning is how a ball is turned by the landing of a flight and after it. In
// the air nothing turns it; a spin about its line of travel, which an elevated
// cue makes out of sidespin, waits for the cloth.
func Turning(p *motion.Path, f *Flight) Turn {
	after, _ := p.At(f.Begin + f.Length)
	rolls, _ := p.At(p.RollStart())
	return Turn{
		Air:   motion.Bearing(f.From.Vel),
		Down:  motion.Bearing(after.Vel),
		Rolls: motion.Bearing(rolls.Vel),
		Side:  f.Land.Spin.Z,
	}
}

// A Meeting is how a cue ball comes to an object ball.
type Meeting int

// The meetings.
const (
	Misses Meeting = iota
	OnTheCloth
	OnTheFly
	FliesOver
)

// Meets is how a path first comes to an equal ball at rest with its centre at
// a place, and how high above that centre the cue ball's then is.
func Meets(p *motion.Path, centre vec.V, radius unit.Length) (Meeting, unit.Length) {
	if when, err := contact.Meet(p, centre, radius); err == nil {
		ball, _ := p.At(when)
		if ball.Pos.Z > 0 {
			return OnTheFly, unit.Length(ball.Pos.Z)
		}
		return OnTheCloth, 0
	}
	for _, f := range Flights(p, 0) {
		// Seen in plan the flight is straight and even: where is it nearest?
		flat, to := f.From.Vel.Plan(), centre.Sub(f.From.Pos).Plan()
		speed := flat.Dot(flat)
		if speed == 0 {
			continue
		}
		t := min(max(0, to.Dot(flat)/speed), float64(f.Length))
		if to.Sub(flat.Mul(t)).Norm() < 2*float64(radius) {
			ball, _ := p.At(f.Begin + unit.Span(t))
			return FliesOver, unit.Length(ball.Pos.Z)
		}
	}
	return Misses, 0
}
