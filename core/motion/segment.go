package motion

import (
	"math"

	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A State is the state of a ball at one moment, in SI units: the position of its centre
// relative to the start, with z measured from the resting height; its velocity; and its
// angular velocity.
type State struct{ Pos, Vel, Spin vec.V }

// A Phase is the kind of motion a ball is in.
type Phase int

// The phases in the order in which a ball passes through them.
const (
	Fly Phase = iota
	Slide
	Roll
	Rest
)

// A Segment is a part of a path with one closed form: constant acceleration, a constant
// rate of change of the horizontal spin, and sidespin that decays at its own constant
// rate.
type Segment struct {
	Phase   Phase
	Begin   unit.Span // when it starts
	Length  unit.Span // how long it lasts; +Inf at rest
	From    State
	Acc     vec.V   // m/s²
	SpinAcc vec.V   // rad/s², horizontal
	decay   float64 // of sidespin, rad/s²
}

// at returns the state t seconds into the segment.
func (s *Segment) at(t float64) State {
	f := &s.From
	spin := f.Spin.Add(s.SpinAcc.Mul(t))
	spin.Z = math.Copysign(math.Max(0, math.Abs(spin.Z)-s.decay*t), spin.Z)
	return State{
		Pos:  f.Pos.Add(f.Vel.Mul(t)).Add(s.Acc.Mul(t * t / 2)),
		Vel:  f.Vel.Add(s.Acc.Mul(t)),
		Spin: spin,
	}
}

// turn returns the angle turned about the vertical in the first t seconds, with the sign
// of the sidespin.
func (s *Segment) turn(t float64) float64 {
	w := s.From.Spin.Z
	if s.decay > 0 {
		t = math.Min(t, math.Abs(w)/s.decay) // no sidespin is left after that
	}
	return w*t - math.Copysign(s.decay*t*t/2, w)
}

// slip returns the velocity of the ball's lowest point relative to the bed.
func slip(s *State, radius float64) vec.V {
	return vec.V{X: s.Vel.X - radius*s.Spin.Y, Y: s.Vel.Y + radius*s.Spin.X}
}

// bounce returns the state after an impact with the table. The normal impulse reverses
// v_z. Friction opposes the slip and is limited to the impulse that would end it. Neither
// sidespin nor v − (2/7)u changes.
func bounce(s State, radius, slide, rebound float64) State {
	normal := -(1 + rebound) * s.Vel.Z
	u := slip(&s, radius)
	s.Vel.Z *= -rebound
	size := u.Norm()
	if size == 0 {
		return s
	}
	return kick(s, u.Mul(-math.Min(slide*normal/size, 2.0/7)), radius)
}

// kick changes the velocity of a ball by dv, which is horizontal and acts at the lowest
// point: Δω = (5/(2R²)) (−R ẑ × dv).
func kick(s State, dv vec.V, radius float64) State {
	s.Vel = s.Vel.Add(dv)
	s.Spin = s.Spin.Add(torque(dv, radius))
	return s
}

// torque returns the change of spin that accompanies a change dv of the velocity by the
// bed.
func torque(dv vec.V, radius float64) vec.V {
	return vec.V{X: dv.Y, Y: -dv.X}.Mul(2.5 / radius)
}
