package hop

import (
	"pivotbench/core/contact"
	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A Turn is how english changes the direction of a ball that flies. Air, Down and Rolls
// are bearings of its travel in plan, positive to the right.
type Turn struct {
	Air   unit.Angle // in flight, after what the cloth did at the strike
	Down  unit.Angle // just after the landing
	Rolls unit.Angle // once it rolls for good
	Side  float64    // sidespin at the landing in rad/s, positive for right english
}

// Turning returns how a ball is turned by the landing of a flight and by the roll after
// it. Nothing turns it in the air: a spin about its line of travel, which an elevated cue
// makes of sidespin, acts only on the cloth.
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

// A Meeting is how a cue ball meets an object ball, or misses it.
type Meeting int

// The kinds of meeting.
const (
	Misses Meeting = iota
	OnTheCloth
	OnTheFly
	FliesOver
)

// Meets returns how a path first meets an equal ball at rest with its centre at a given
// point, and the height of the cue ball's centre above that centre then.
func Meets(p *motion.Path, centre vec.V, radius unit.Length) (Meeting, unit.Length) {
	if when, err := contact.Meet(p, centre, radius); err == nil {
		ball, _ := p.At(when)
		if ball.Pos.Z > 0 {
			return OnTheFly, unit.Length(ball.Pos.Z)
		}
		return OnTheCloth, 0
	}
	for _, f := range Flights(p, 0) {
		// In plan the flight is straight and uniform; this finds its nearest point.
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
