package motion

import (
	"math"

	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A State is a ball at one moment, in SI: its centre relative to the start,
// with z above the resting height, its velocity and its angular velocity.
type State struct{ Pos, Vel, Spin vec.V }

// A Phase is what a ball is doing.
type Phase int

// The phases of a ball's way.
const (
	Fly Phase = iota
	Slide
	Roll
	Rest
)

// A Segment is one stretch of a path with one closed form: constant
// acceleration, constant change of the horizontal spin, and sidespin that
// decays at its own rate.
type Segment struct {
	Phase   Phase
	Begin   unit.Span // when it starts
	Length  unit.Span // how long it lasts; +Inf at rest
	From    State
	Acc     vec.V   // m/s²
	SpinAcc vec.V   // rad/s², horizontal
	decay   float64 // of sidespin, rad/s²
}

// at is the state t seconds into the segment.
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

// turn is the angle about the upright of t seconds, as sidespin has its sign.
func (s *Segment) turn(t float64) float64 {
	w := s.From.Spin.Z
	if s.decay > 0 {
		t = math.Min(t, math.Abs(w)/s.decay) // after which there is none left
	}
	return w*t - math.Copysign(s.decay*t*t/2, w)
}

// slip is the velocity of the ball's lowest point over the bed.
func slip(s *State, radius float64) vec.V {
	return vec.V{X: s.Vel.X - radius*s.Spin.Y, Y: s.Vel.Y + radius*s.Spin.X}
}

// bounce is the table's answer to a ball that comes down: the normal impulse
// turns v_z round, and friction against the slip is limited by what would stop
// it. It changes neither sidespin nor v − (2/7)u.
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

// kick changes a ball's velocity by dv, horizontal and applied at the lowest
// point: Δω = (5/(2R²)) (−R ẑ × dv).
func kick(s State, dv vec.V, radius float64) State {
	s.Vel = s.Vel.Add(dv)
	s.Spin = s.Spin.Add(torque(dv, radius))
	return s
}

// torque is the change of spin that goes with a change of velocity dv made by
// the bed.
func torque(dv vec.V, radius float64) vec.V {
	return vec.V{X: dv.Y, Y: -dv.X}.Mul(2.5 / radius)
}
