package strike

import (
	"math"

	"pivotbench/core/gear"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A Contact is where the tip touches, in ball radii from the centre of the
// ball as the cue sees it: Side positive to the right, Height positive up.
type Contact struct{ Side, Height float64 }

// Offset is ρ, the distance from the centre.
func (c Contact) Offset() float64 { return math.Hypot(c.Side, c.Height) }

// Check reports whether a tip can touch there: ErrOffBall, ErrOffTip or nil.
func (c Contact) Check(tip gear.Tip) error {
	rho := c.Offset()
	switch {
	case !(rho < 1):
		return ErrOffBall
	case float64(tip.Dome)*rho > float64(tip.Width)/2:
		return ErrOffTip
	}
	return nil
}

// A Line is the cue's direction: Heading in plan, positive to the right of
// the aim line, and Elevation of the butt above level.
type Line struct{ Heading, Elevation unit.Angle }

// Direction is the unit vector in which the cue points, down to the ball.
func (l Line) Direction() vec.V {
	dir, _, _ := l.axes()
	return dir
}

// axes are the cue's direction and the two axes of the plane square to it in
// which the contact is measured.
func (l Line) axes() (dir, side, height vec.V) {
	sd, cd := math.Sincos(float64(l.Heading))
	st, ct := math.Sincos(float64(l.Elevation))
	return vec.V{X: sd * ct, Y: cd * ct, Z: -st},
		vec.V{X: cd, Y: -sd},
		vec.V{X: sd * st, Y: cd * st, Z: ct}
}

// A Launch is the ball as the tip lets go, before the table answers.
type Launch struct {
	Vel    vec.V // m/s
	Spin   vec.V // angular velocity, rad/s
	Squirt unit.Angle
	// Squirt is heading less launch angle in plan: it has the sign of the
	// side, since right english squirts the ball to the left.
}

// A Hit is one cue on one ball at one contact: all that does not depend on
// speed or heading.
type Hit struct {
	ball    gear.Ball
	cue     gear.Cue
	contact Contact
	k       float64 // ball mass over end mass
	rho     float64
	tan     float64 // of the deflection
	effort  float64 // J/(mV): impulse on the ball per ball mass and cue speed
}

// Prepare works out a hit. ErrOffBall, ErrOffTip and ErrMiscue are hits that
// do not come off; ErrPivot a cue that can't be.
func Prepare(ball gear.Ball, cue gear.Cue, contact Contact) (Hit, error) {
	if err := contact.Check(cue.Tip); err != nil {
		return Hit{}, err
	}
	k, err := MassRatio(ball, cue)
	if err != nil {
		return Hit{}, err
	}
	rho := contact.Offset()
	if MiscueMargin(rho, k, cue.Tip) < 0 {
		return Hit{}, ErrMiscue
	}
	tan := tanDeflection(rho, k)
	c := math.Sqrt(1 - rho*rho)
	return Hit{
		ball: ball, cue: cue, contact: contact, k: k, rho: rho, tan: tan,
		effort: (1 + cue.Tip.Restitution) /
			(1 + float64(ball.Mass/cue.Mass) + 2.5*rho*(rho-c*tan)),
	}, nil
}

// EndMass is the mass at the cue's end that the ball has to carry sideways.
func (h *Hit) EndMass() unit.Mass { return h.ball.Mass / unit.Mass(h.k) }

// Offset is ρ, how far from the centre the tip touches, in ball radii.
func (h *Hit) Offset() float64 { return h.rho }

// Axes are unit vectors along the cue as it comes in on a line, along the
// offset square to it, and square to both.
func (h *Hit) Axes(l Line) (dir, out, across vec.V) {
	dir, side, height := l.axes()
	out = h.direction(side, height)
	return dir, out, dir.Cross(out)
}

// SpinRatio is |ω|R/|v| as the tip lets go.
func (h *Hit) SpinRatio() float64 { return 2.5 * Slip(h.rho, h.k).Sin() }

// BallSpeed is |v| as the tip lets go, for a cue speed.
func (h *Hit) BallSpeed(cue unit.Speed) unit.Speed {
	return cue * unit.Speed(h.effort*math.Sqrt(1+h.tan*h.tan))
}

// CueSpeed is the inverse of BallSpeed.
func (h *Hit) CueSpeed(ball unit.Speed) unit.Speed { return ball / h.BallSpeed(1) }

// direction is the unit vector of the offset in the plane square to the cue.
// A centre hit has none, and needs none: any will do.
func (h *Hit) direction(side, height vec.V) vec.V {
	if h.rho == 0 {
		return side
	}
	return side.Mul(h.contact.Side / h.rho).Add(height.Mul(h.contact.Height / h.rho))
}

// Squirt is the plan angle from the ball's launch to the cue's heading:
//
//	tan(squirt) = (s/ρ) t / (cos θ − (h/ρ) t sin θ),  t = tan α
func (h *Hit) Squirt(elevation unit.Angle) unit.Angle {
	if h.rho == 0 {
		return 0
	}
	s, up := h.contact.Side/h.rho, h.contact.Height/h.rho
	return unit.Angle(math.Atan2(s*h.tan, elevation.Cos()-up*h.tan*elevation.Sin()))
}

// At strikes along a line at a cue speed.
//
//	v = (J/m)(d̂ − t n̂),  ω = r × J(d̂ − t n̂) / (2/5 m R²),  r = R(ρ n̂ − c d̂)
func (h *Hit) At(line Line, cue unit.Speed) Launch {
	dir, side, height := line.axes()
	n := h.direction(side, height)
	push := dir.Sub(n.Mul(h.tan)).Mul(h.effort * float64(cue))
	arm := n.Mul(h.rho).Sub(dir.Mul(math.Sqrt(1 - h.rho*h.rho)))
	return Launch{
		Vel:    push,
		Spin:   arm.Cross(push).Mul(2.5 / float64(h.ball.Radius)),
		Squirt: h.Squirt(line.Elevation),
	}
}
