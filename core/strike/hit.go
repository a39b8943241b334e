package strike

import (
	"math"

	"pivotbench/core/gear"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A Contact is the point where the tip touches the ball, as seen along the cue, in ball
// radii from the centre: Side is positive to the right, Height positive up.
type Contact struct{ Side, Height float64 }

// Offset returns ρ, the distance of the contact from the centre, in ball radii.
func (c Contact) Offset() float64 { return math.Hypot(c.Side, c.Height) }

// Check returns ErrOffBall or ErrOffTip if no point of the tip can touch the ball there,
// and nil otherwise.
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

// A Line is the direction of the cue: Heading is its angle in plan, positive to the right
// of the aim line, and Elevation the angle of the butt above level.
type Line struct{ Heading, Elevation unit.Angle }

// Direction returns the unit vector along the cue towards the ball.
func (l Line) Direction() vec.V {
	dir, _, _ := l.axes()
	return dir
}

// axes returns the direction of the cue and the two axes of the plane perpendicular to it
// in which a contact is measured.
func (l Line) axes() (dir, side, height vec.V) {
	sd, cd := math.Sincos(float64(l.Heading))
	st, ct := math.Sincos(float64(l.Elevation))
	return vec.V{X: sd * ct, Y: cd * ct, Z: -st},
		vec.V{X: cd, Y: -sd},
		vec.V{X: sd * st, Y: cd * st, Z: ct}
}

// A Launch is the state of the ball as the tip lets go, before the table acts on it.
type Launch struct {
	Vel    vec.V // m/s
	Spin   vec.V // angular velocity, rad/s
	Squirt unit.Angle
	// Squirt is the heading minus the launch angle in plan. It has the sign of the side
	// offset, since right english squirts the ball to the left.
}

// A Hit is one cue on one ball at one contact: everything that depends on neither speed
// nor heading.
type Hit struct {
	ball    gear.Ball
	cue     gear.Cue
	contact Contact
	k       float64 // ball mass over end mass
	rho     float64
	tan     float64 // tan α, the tangent of the deflection
	effort  float64 // J/(mV), the impulse on the ball per ball mass and cue speed
}

// Prepare computes a hit. It returns ErrOffBall, ErrOffTip or ErrMiscue for a contact
// that cannot be played, and ErrPivot for a cue that cannot exist.
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

// EndMass returns the mass at the end of the cue that the ball has to move sideways.
func (h *Hit) EndMass() unit.Mass { return h.ball.Mass / unit.Mass(h.k) }

// Offset returns ρ, the distance of the contact from the centre, in ball radii.
func (h *Hit) Offset() float64 { return h.rho }

// Axes returns three perpendicular unit vectors: dir along the cue, out along the offset,
// and across = dir × out.
func (h *Hit) Axes(l Line) (dir, out, across vec.V) {
	dir, side, height := l.axes()
	out = h.direction(side, height)
	return dir, out, dir.Cross(out)
}

// SpinRatio returns |ω|R/|v| as the tip lets go.
func (h *Hit) SpinRatio() float64 { return 2.5 * Slip(h.rho, h.k).Sin() }

// BallSpeed returns |v| as the tip lets go, for a given cue speed.
func (h *Hit) BallSpeed(cue unit.Speed) unit.Speed {
	return cue * unit.Speed(h.effort*math.Sqrt(1+h.tan*h.tan))
}

// CueSpeed is the inverse of BallSpeed.
func (h *Hit) CueSpeed(ball unit.Speed) unit.Speed { return ball / h.BallSpeed(1) }

// direction returns the unit vector of the offset in the plane perpendicular to the cue.
// For a centre hit, which has no such direction, it returns side.
func (h *Hit) direction(side, height vec.V) vec.V {
	if h.rho == 0 {
		return side
	}
	return side.Mul(h.contact.Side / h.rho).Add(height.Mul(h.contact.Height / h.rho))
}

// Squirt returns the angle in plan from the ball's launch direction to the cue's heading:
//
//	tan(squirt) = (s/ρ) t / (cos θ − (h/ρ) t sin θ),  t = tan α
func (h *Hit) Squirt(elevation unit.Angle) unit.Angle {
	if h.rho == 0 {
		return 0
	}
	s, up := h.contact.Side/h.rho, h.contact.Height/h.rho
	return unit.Angle(math.Atan2(s*h.tan, elevation.Cos()-up*h.tan*elevation.Sin()))
}

// At returns the launch for a line and a cue speed:
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
