package main

import (
	"math"

	"pivotbench/core/gear"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A ball's motion for the integrator: only forces and torques, none of the closed forms.
// y has its position, its velocity and the two horizontal components of its spin.
// Sidespin does not bend the path and is left out.
const (
	posX = iota
	posY
	posZ
	velX
	velY
	velZ
	spinX
	spinY
	unknowns
)

// flies is the lowest upward speed, in m/s, at which a ball leaves the cloth in the
// model.
const flies = 0.01

// A stepper integrates balls step by step.
type stepper struct {
	with   *integrator
	y      [unknowns]float64
	radius float64
	cloth  gear.Cloth
}

func newStepper() *stepper {
	return &stepper{with: newIntegrator(unknowns, tolerance, tolerance/1000)}
}

// follow integrates a ball from the tip to rest, and calls seen with its state after each
// step.
func (s *stepper) follow(play *shot.Shot, res *shot.Result, seen func(t float64, y []float64)) {
	l := &res.Launch
	s.radius, s.cloth = float64(play.Ball.Radius), play.Cloth
	s.y = [unknowns]float64{velX: l.Vel.X, velY: l.Vel.Y, velZ: l.Vel.Z, spinX: l.Spin.X, spinY: l.Spin.Y}
	y, t := s.y[:], 0.0
	for s.land(); s.y[velZ] > flies; s.land() { // the height is zero at both ends of a flight
		t = s.with.follow(s.air, func(y []float64) float64 { return y[velZ] }, t, y, seen)
		t = s.with.follow(s.air, func(y []float64) float64 { return y[posZ] }, t, y, seen)
	}
	s.y[posZ], s.y[velZ] = 0, 0

	if ux, uy := s.slip(y); math.Hypot(ux, uy) > 0 {
		// A stage beyond the end of the slip must not reverse it.
		onward := func(y []float64) float64 { vx, vy := s.slip(y); return vx*ux + vy*uy }
		t = s.with.follow(func(_ float64, y, dy []float64) {
			vx, vy := s.slip(y)
			s.drag(y, dy, vx, vy, math.Copysign(s.cloth.Slide, onward(y)))
		}, onward, t, y, seen)
	}
	if vx, vy := s.y[velX], s.y[velY]; math.Hypot(vx, vy) > 0 {
		onward := func(y []float64) float64 { return y[velX]*vx + y[velY]*vy }
		s.with.follow(func(_ float64, y, dy []float64) {
			s.drag(y, dy, y[velX], y[velY], math.Copysign(s.cloth.Roll, onward(y)))
			dy[spinX], dy[spinY] = -dy[velY]/s.radius, dy[velX]/s.radius // no slip
		}, onward, t, y, seen)
	}
}

// slip returns the velocity of the lowest point.
func (s *stepper) slip(y []float64) (across, along float64) {
	return y[velX] - s.radius*y[spinY], y[velY] + s.radius*y[spinX]
}

func (s *stepper) air(_ float64, y, dy []float64) {
	clear(dy)
	copy(dy, y[velX:spinX])
	dy[velZ] = -unit.Gravity
}

// drag adds a force of the bed opposite to a direction, as a share of the ball's weight,
// and its torque.
func (s *stepper) drag(y, dy []float64, wayX, wayY, share float64) {
	size := share * unit.Gravity / math.Hypot(wayX, wayY)
	copy(dy, y[velX:spinX])
	dy[velX], dy[velY], dy[velZ] = -size*wayX, -size*wayY, 0
	dy[spinX], dy[spinY] = 2.5*dy[velY]/s.radius, -2.5*dy[velX]/s.radius
}

// land applies the impulse of the bed to a ball that lands.
func (s *stepper) land() {
	y := &s.y
	y[posZ] = 0
	if y[velZ] >= 0 {
		return
	}
	push := -(1 + s.cloth.Rebound) * y[velZ]
	y[velZ] *= -s.cloth.Rebound
	ux, uy := s.slip(y[:])
	if u := math.Hypot(ux, uy); u > 0 {
		rub := min(s.cloth.Slide*push/u, 2./7)
		y[velX] -= rub * ux
		y[velY] -= rub * uy
		y[spinX] -= 2.5 * rub * uy / s.radius
		y[spinY] += 2.5 * rub * ux / s.radius
	}
}
