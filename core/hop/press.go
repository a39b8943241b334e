package hop

import (
	"math"

	"pivotbench/core/gear"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A Press is the result of a hit on a ball on the bed, from the first touch of the tip to
// the last touch of tip and bed, for a cue speed of 1 m/s. Springs and Coulomb friction
// have no speed of their own, so velocities, spins and impulses are proportional to the
// cue's speed, and energies to its square.
type Press struct {
	Vel, Spin vec.V     // of the ball after the last touch, in m/s and rad/s
	Cue       float64   // speed of the cue after that
	End       vec.V     // velocity of the end mass perpendicular to the cue
	OnTip     vec.V     // impulse of the tip on the ball, N s
	OnBed     vec.V     // impulse of the bed on the ball, N s
	Lost      float64   // energy lost in the tip, the bed and both frictions, J
	Slipped   float64   // share of the tip's impulse during which it slipped, 0 to 1
	Touches   int       // number of contacts with the tip; 2 is a double hit
	Follows   bool      // the cue follows the ball at the end and may hit it again
	Tip, Bed  unit.Span // when each last let go, for a bed contact of 1 s
}

// steps is the number of steps in the shortest contact under way. Twice as many change a
// rise by less than 1 %.
const steps = 64

// Struck integrates a hit. ratio is the tip's contact time divided by the bed's, more
// than 0. Only the ratio matters: changing both times by the same factor changes no
// velocity.
//
// The model: the tip is a spring along the cue, the bed a vertical one. Each loads with a
// stiffness k and unloads from its greatest compression with k/e², so that it returns the
// share e of the approach speed. On its own it is in contact for
//
//	T = (π/2)(1 + e) √(mass/k)
//
// where mass is that of the ball on the bed, and mM/(m + M) of a reference ball and cue
// at the tip: k belongs to the tip, so a lighter cue has a shorter contact. Cross, The
// bounce of a ball, Am. J. Phys. 67 (1999) 222, found such nearly linear loading, and
// that a ball leaves while still compressed.
//
// Across the cue, the contact point moves the end mass along while the tip grips. Outside
// the tip's friction cone it slips. The bed acts by sliding friction, or by less if less
// stops the slip. Cross, Grip-slip behavior of a bouncing ball, Am. J. Phys. 70 (2002)
// 1093, saw real balls stretch sideways there; this is left out. So is weight, a
// thousandth of these forces. The contact point stays where it is on the ball.
//
// The method is position Verlet, which is of second order and conserves a spring's
// energy. Frictions are impulses on the velocities at the end of a step, so that friction
// that sticks does not make the equations stiff.
func Struck(ball gear.Ball, cue gear.Cue, cloth gear.Cloth, hit *strike.Hit, line strike.Line, ratio float64) Press {
	return struck(ball, cue, cloth, hit, line, ratio, steps)
}

// A spring is a contact that loads and unloads.
type spring struct {
	stiff, give float64 // loading stiffness in N/m; e²
	squeeze     float64
	most        float64 // greatest compression so far
	step        float64 // longest time step during contact
}

func newSpring(mass, time, e, steps float64) spring {
	root := math.Pi / 2 * (1 + e) / time
	return spring{stiff: mass * root * root, give: e * e, step: time / steps}
}

// rest returns the compression at which the contact ends.
func (s *spring) rest() float64 { return s.most * (1 - s.give) }

// force returns the force at the present compression.
func (s *spring) force() float64 {
	switch {
	case s.squeeze >= s.most:
		s.most = s.squeeze
		return s.stiff * s.squeeze
	case s.squeeze <= s.rest():
		return 0
	}
	return s.stiff / s.give * (s.squeeze - s.rest())
}

// lost returns the energy lost between loading and unloading.
func (s *spring) lost() float64 { return s.stiff * s.most * s.most * (1 - s.give) / 2 }

// The reference ball and cue of a tip's contact time.
const (
	refBall = 170 * unit.Gram
	refCue  = 540 * unit.Gram
)

// reduced returns the reduced mass of two bodies.
func reduced(a, b unit.Mass) float64 { return float64(a * b / (a + b)) }

// A pressing is a hit in progress. Components across the cue are along n, the direction
// of the offset, and b, perpendicular to it and to the cue.
type pressing struct {
	dir, n, b      vec.V
	arm            vec.V // from the ball's centre to the tip
	foot           vec.V // from the ball's centre to the bed
	rho, cos       float64
	mass, cue, end float64
	inertia, grip  float64 // moment of inertia of the ball; friction of the tip
	slide          float64
	yieldN, yieldB float64 // velocity that an impulse of 1 N s across the cue gives the contact point relative to the end mass

	tip, bed   spring
	endN, endB float64
	rubbed     float64
	slipped    float64
	out        Press
}

func struck(ball gear.Ball, cue gear.Cue, cloth gear.Cloth, hit *strike.Hit, line strike.Line, ratio, steps float64) Press {
	p := pressing{mass: float64(ball.Mass), cue: float64(cue.Mass), end: float64(hit.EndMass()), grip: cue.Tip.Friction, slide: cloth.Slide}
	radius := float64(ball.Radius)
	p.dir, p.n, p.b = hit.Axes(line)
	p.rho = hit.Offset()
	p.cos = math.Sqrt(1 - p.rho*p.rho)
	p.arm = p.n.Mul(p.rho).Sub(p.dir.Mul(p.cos)).Mul(radius)
	p.foot = vec.V{Z: -radius}
	p.inertia = 0.4 * p.mass * radius * radius
	p.yieldN = (1+2.5*p.cos*p.cos)/p.mass + 1/p.end
	p.yieldB = 3.5/p.mass + 1/p.end
	p.tip = newSpring(reduced(refBall, refCue), ratio, cue.Tip.Restitution, steps)
	p.bed = newSpring(p.mass, 1, cloth.Rebound, steps)
	p.out.Cue = 1
	p.run()
	return p.out
}

// point returns the velocity of the ball's material point at an arm from its centre.
func (p *pressing) point(arm vec.V) vec.V { return p.out.Vel.Add(p.out.Spin.Cross(arm)) }

// closing returns the speed at which the tip is being compressed.
func (p *pressing) closing() float64 { return p.out.Cue - p.point(p.arm).Dot(p.dir) }

// push gives the ball an impulse at an arm from its centre.
func (p *pressing) push(impulse, arm vec.V) {
	p.out.Vel = p.out.Vel.Add(impulse.Mul(1 / p.mass))
	p.out.Spin = p.out.Spin.Add(arm.Cross(impulse).Mul(1 / p.inertia))
}

// run steps until neither contact is closed and the ball does not come down again.
func (p *pressing) run() {
	now, axial, touching := 0.0, 0.0, false
	for {
		dt := p.step()
		p.drift(dt / 2)
		onTip, onBed := p.tip.force()*dt, p.bed.force()*dt
		p.kick(onTip, onBed)
		p.drift(dt / 2)
		now += dt
		axial += onTip
		if onTip > 0 {
			p.out.Tip = unit.Span(now)
			if !touching {
				p.out.Touches++
			}
		}
		touching = onTip > 0
		if onBed > 0 {
			p.out.Bed = unit.Span(now)
		}
		if onTip == 0 && onBed == 0 && p.out.Vel.Z >= 0 {
			break
		}
	}
	p.out.End = p.n.Mul(p.endN).Add(p.b.Mul(p.endB))
	p.out.Lost = p.tip.lost() + p.bed.lost() + p.rubbed
	p.out.Slipped = p.slipped / axial
	p.out.Follows = p.closing() > 0
}

// step returns the time step: that of the shortest contact under way, and no longer than
// until the cue catches up with the ball.
func (p *pressing) step() float64 {
	gap, closing := p.tip.rest()-p.tip.squeeze, p.closing()
	switch {
	case gap < 0:
		return min(p.tip.step, p.bed.step)
	case closing > 0:
		return min(max(gap/closing, p.tip.step), p.bed.step)
	}
	return p.bed.step
}

func (p *pressing) drift(dt float64) {
	p.tip.squeeze += p.closing() * dt
	p.bed.squeeze -= p.out.Vel.Z * dt
}

// kick applies the impulses of one step to the velocities. The two frictions depend on
// each other through the ball; a few iterations settle them.
func (p *pressing) kick(onTip, onBed float64) {
	p.push(p.dir.Mul(onTip), p.arm)
	p.push(vec.V{Z: onBed}, p.foot)
	p.out.Cue -= onTip / p.cue
	before := p.point(p.foot).Plan()
	face := p.point(p.arm)
	startN, startB := face.Dot(p.n)-p.endN, face.Dot(p.b)-p.endB
	var qn, qb float64
	var rub vec.V
	limited := false
	for range 30 {
		change := 0.0
		if onTip > 0 {
			face := p.point(p.arm)
			n, b, clipped := p.cone(onTip, qn-(face.Dot(p.n)-p.endN)/p.yieldN, qb-(face.Dot(p.b)-p.endB)/p.yieldB)
			change = math.Abs(n-qn) + math.Abs(b-qb)
			limited = clipped
			p.push(p.n.Mul(n-qn).Add(p.b.Mul(b-qb)), p.arm)
			p.endN -= (n - qn) / p.end
			p.endB -= (b - qb) / p.end
			qn, qb = n, b
		}
		if onBed > 0 {
			next := rub.Sub(p.point(p.foot).Plan().Mul(2 * p.mass / 7))
			if size := next.Norm(); size > p.slide*onBed {
				next = next.Mul(p.slide * onBed / size)
			}
			change += next.Sub(rub).Norm()
			p.push(next.Sub(rub), p.foot)
			rub = next
		}
		if change <= 1e-9*(onTip+onBed) {
			break
		}
	}
	if limited {
		p.slipped += onTip
	}
	p.out.OnTip = p.out.OnTip.Add(p.dir.Mul(onTip)).Add(p.n.Mul(qn)).Add(p.b.Mul(qb))
	p.out.OnBed = p.out.OnBed.Add(vec.V{X: rub.X, Y: rub.Y, Z: onBed})
	// The work of each friction is its impulse times the mean slip velocity before and
	// after.
	after := p.point(p.foot).Plan()
	p.rubbed -= rub.Dot(before.Add(after)) / 2
	face = p.point(p.arm)
	p.rubbed -= (qn*(startN+face.Dot(p.n)-p.endN) + qb*(startB+face.Dot(p.b)-p.endB)) / 2
}

// cone limits an impulse across the cue to the tip's friction cone, given the impulse
// along the cue. It moves along the line from the impulse normal to the ball's face to
// the one that would grip.
func (p *pressing) cone(along, qn, qb float64) (n, b float64, clipped bool) {
	square := -along * p.rho / p.cos
	move := qn - square
	inward := -p.rho * move // its component along the normal
	limit := math.Sqrt(max(0, move*move+qb*qb-inward*inward)) - p.grip*inward
	if room := p.grip * along / p.cos; limit > room {
		s := room / limit
		return square + s*move, s * qb, true
	}
	return qn, qb, false
}
