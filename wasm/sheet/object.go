package sheet

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// meet follows the cue ball to the object ball, if one is shown.
func (p *pen) meet() {
	if !p.v.Object || p.res.Launched != nil {
		return
	}
	sh, pot := p.s.Shot(), shot.Pot{}
	if sh.Sink(&p.res.Path, &pot) != nil {
		return
	}
	p.pot, p.centre = &pot, sh.ObjectAt()
	var on motion.Path
	on.Follow(pot.Cue, sh.Ball.Radius, sh.Cloth)
	p.after = p.trace(&on, vec.V{}, 2*float64(sh.Object.Dist)+float64(sh.Dist))
}

// object draws the object ball, its pocket, and where it goes.
func (p *pen) object() {
	if !p.v.Object {
		return
	}
	sh := p.s.Shot()
	centre := sh.ObjectAt()
	cut := sh.Object.Cut
	pocket := centre.Add(vec.V{X: cut.Sin(), Y: cut.Cos()}.Mul(float64(sh.Object.Dist)))
	p.line(Stroke{Soft, 1, DashDot}, p.plan.vec(centre), p.plan.vec(pocket))
	p.jaws(pocket, &sh)

	if pot := p.pot; pot != nil {
		way := p.trace(&pot.Object, centre, float64(sh.Object.Dist)*1.02)
		p.line(Stroke{Off, 2, Solid}, way...)
		p.line(Stroke{Way, 1.4, Dashed}, p.after...)
	}
	c := p.plan.vec(centre)
	if f := p.v.Frame; f != nil && f.Object != nil {
		p.start(c)
		p.under(f.Object, centre)
	} else {
		p.circle(c, p.plan.ball, Stroke{Line, 1.6, Solid}, Ground)
		p.line(Stroke{Line, 0.8, Solid}, Point{c.X - 3, c.Y - 3}, Point{c.X + 3, c.Y + 3})
		p.line(Stroke{Line, 0.8, Solid}, Point{c.X - 3, c.Y + 3}, Point{c.X + 3, c.Y - 3})
	}
	p.want(ofBall, Text{Words: "object ball", Size: p.typeSize(), Ink: Soft},
		Text{At: Point{c.X - p.plan.ball - 8, c.Y - 6}, Anchor: ToEnd}, Text{At: Point{c.X + p.plan.ball + 8, c.Y - 6}, Anchor: FromStart})
}

// jaws draws the mouth of the pocket, perpendicular to the line of entry.
func (p *pen) jaws(at vec.V, sh *shot.Shot) {
	across := vec.V{X: sh.Object.Cut.Cos(), Y: -sh.Object.Cut.Sin()}
	end := func(side, openings float64) Point {
		return p.plan.vec(at.Add(across.Mul(side * openings * float64(sh.Object.Opening))))
	}
	left, right := end(-1, 1), end(1, 1)
	p.line(Stroke{Line, 2.4, Solid}, end(-1, 0.5), left)
	p.line(Stroke{Line, 2.4, Solid}, end(1, 0.5), right)
	size := p.typeSize()
	p.want(ofBall, Text{Words: "pocket", Size: size, Ink: Soft},
		Text{At: Point{right.X + 8, right.Y + 0.35*size}, Anchor: FromStart}, Text{At: Point{left.X - 8, left.Y + 0.35*size}, Anchor: ToEnd},
		Text{At: Point{(left.X + right.X) / 2, min(left.Y, right.Y) - 8}, Anchor: Middle})
}

// trace returns a path as points, given where it begins, until it has gone a distance or
// stops.
func (p *pen) trace(way *motion.Path, from vec.V, far float64) []Point {
	end := way.Stop()
	if when, err := way.AtCircle(unit.Length(far)); err == nil {
		end = when
	}
	points := make([]Point, 0, samples+1)
	for i := range samples + 1 {
		// The points are closer together at first, where the path curves.
		part := math.Pow(float64(i)/samples, 2)
		at, _ := way.At(end * unit.Span(part))
		points = append(points, p.plan.vec(at.Pos.Add(from)))
	}
	return points
}
