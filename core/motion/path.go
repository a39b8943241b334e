// Package motion describes the motion of one ball: it hops, slides, rolls and stops.
// Every segment has a closed form, so the state at any time and the time of crossing a
// line or a circle are exact. Nothing steps through time.
//
// Source: Coriolis, Théorie mathématique des effets du jeu de billard (1835);
// any text on rigid-body mechanics. Rolling resistance is a constant
// deceleration; sidespin decays on the cloth and doesn't bend the path.
package motion

import (
	"math"

	"pivotbench/core/gear"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// leave is the upward speed in m/s up to which a ball stays on the cloth.
const leave = 0.01

// most exceeds the number of segments that a path can have. A ball that leaves the cue
// straight up at 40 mph and keeps 0.8 of its speed at each landing comes down after 34
// hops; then it slides, rolls and rests.
const most = 40

// A Path is the whole motion of a ball after a hit, on a table without cushions.
type Path struct {
	segs [most]Segment
	n    int
}

// Run returns the path of a ball from the origin. vel and spin are its velocity in m/s
// and angular velocity in rad/s as the tip lets go.
func Run(vel, spin vec.V, radius unit.Length, cloth gear.Cloth) (p Path) {
	p.Follow(State{Vel: vel, Spin: spin}, radius, cloth)
	return p
}

// Follow sets p to the path of a ball from the state in which a tip or another ball lets
// it go. If the ball lies on the cloth and moves downward, it bounces off the table at
// once.
func (p *Path) Follow(s State, radius unit.Length, cloth gear.Cloth) {
	p.n = 0
	r := float64(radius)
	if s.Pos.Z <= 0 && s.Vel.Z < 0 {
		s = bounce(s, r, cloth.Slide, cloth.Rebound)
	}
	for (s.Pos.Z > 0 || s.Vel.Z > leave) && p.n < most-3 {
		down := math.Sqrt(s.Vel.Z*s.Vel.Z + 2*unit.Gravity*s.Pos.Z) // speed of the landing
		s = p.add(Fly, s, (s.Vel.Z+down)/unit.Gravity, vec.V{Z: -unit.Gravity}, vec.V{}, 0)
		s.Pos.Z = 0
		s = bounce(s, r, cloth.Slide, cloth.Rebound)
	}
	s.Vel.Z = 0

	decay := float64(cloth.SpinDecay)
	u := slip(&s, r)
	if size := u.Norm(); size > 0 {
		// Friction ends the slip: v becomes v − (2/7)u.
		acc := u.Mul(-cloth.Slide * unit.Gravity / size)
		s = p.add(Slide, s, 2*size/(7*cloth.Slide*unit.Gravity), acc, torque(acc, r), decay)
	}
	if speed := s.Vel.Norm(); speed > 0 {
		slow := cloth.Roll * unit.Gravity
		acc := s.Vel.Mul(-slow / speed)
		s.Spin = vec.V{X: -s.Vel.Y / r, Y: s.Vel.X / r, Z: s.Spin.Z} // exactly rolling, free of rounding errors
		s = p.add(Roll, s, speed/slow, acc, vec.V{X: -acc.Y / r, Y: acc.X / r}, decay)
	}
	s.Vel, s.Spin = vec.V{}, vec.V{Z: s.Spin.Z}
	p.add(Rest, s, math.Inf(1), vec.V{}, vec.V{}, decay)
}

// add appends a segment and returns the state at its end.
func (p *Path) add(phase Phase, from State, length float64, acc, spinAcc vec.V, decay float64) State {
	begin := unit.Span(0)
	if p.n > 0 {
		last := &p.segs[p.n-1]
		begin = last.Begin + last.Length
	}
	seg := &p.segs[p.n]
	*seg = Segment{phase, begin, unit.Span(length), from, acc, spinAcc, decay}
	p.n++
	if phase == Rest {
		return from
	}
	return seg.at(length)
}

// Segments returns the segments of the path in order. The last one is at rest.
func (p *Path) Segments() []Segment { return p.segs[:p.n] }

// At returns the state of the ball at time t after the tip let go, and its phase. For a
// negative t that is its state at the start of the path.
func (p *Path) At(t unit.Span) (State, Phase) {
	seg := &p.segs[0]
	for i := 1; i < p.n && p.segs[i].Begin <= t; i++ {
		seg = &p.segs[i]
	}
	return seg.at(math.Max(0, float64(t-seg.Begin))), seg.Phase
}

// Turned returns the angle through which the ball has turned about the vertical by time
// t. Like every angle in plan it is positive to the right (clockwise as seen from above),
// so right english makes it negative.
func (p *Path) Turned(t unit.Span) unit.Angle {
	sum := 0.0
	for i := range p.Segments() {
		s := &p.segs[i]
		long := float64(min(t-s.Begin, s.Length))
		if long <= 0 {
			break
		}
		sum -= s.turn(long)
	}
	return unit.Angle(sum)
}

// RollStart returns the time at which the ball begins to roll for good, or comes to rest
// if it never rolls.
func (p *Path) RollStart() unit.Span {
	for i := range p.Segments() {
		if p.segs[i].Phase >= Roll {
			return p.segs[i].Begin
		}
	}
	return 0
}

// Stop returns the time at which the ball comes to rest.
func (p *Path) Stop() unit.Span { return p.segs[p.n-1].Begin }
