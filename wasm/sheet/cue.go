package sheet

import (
	"math"

	"pivotbench/core/unit"
)

// hands returns where the tip and the hands are on the sheet. The distance between the
// hands is drawn shortened, along the line of the cue.
func (p *pen) hands() (tip, bridge, grip Point) {
	turn := &p.res.Turn
	back := float64(p.s.Bridge + p.s.GearBall().Radius)
	bridge = p.plan.at(float64(turn.Bridge), -back)
	// The dome touches at the side offset, which makes it this much nearer than at the
	// centre.
	side := p.s.Side * float64(p.s.GearBall().Radius)
	depth := float64(p.s.GearBall().Radius) * math.Sqrt(max(0, 1-p.s.Side*p.s.Side))
	cos, sin := turn.Heading.Cos(), turn.Heading.Sin()
	tip = p.plan.at(side*cos-depth*sin, -side*sin-depth*cos)
	// The axis passes the centre a little further out than the contact.
	tip.X += (float64(p.shotAxis()) - side) * p.plan.scale * p.plan.stretch * cos
	return tip, bridge, toward(bridge, tip, -p.gripReach())
}

func (p *pen) shotAxis() unit.Length {
	s := p.s.Shot()
	return s.Axis()
}

// gripReach returns how far behind the bridge the grip hand is drawn, in pixels.
func (p *pen) gripReach() float64 {
	return gripLeast + gripScale*float64(p.s.Grip)*p.plan.scale
}

// cue draws the cue, the hands on it, and the dimensions of the stance.
func (p *pen) cue() {
	if p.res.Reading.Heading.Err() != nil {
		return
	}
	tip, bridge, grip := p.hands()
	moved, held := p.stroked(tip, grip)
	butt := toward(held, bridge, -14)
	cut := toward(bridge, grip, 0.55*p.gripReach())
	st := Stroke{Stick, 4, Solid}
	p.line(st, moved, toward(cut, bridge, 3))
	p.line(Stroke{Stick, 5, Solid}, toward(cut, grip, 3), butt)
	p.breakMark(cut, bridge, grip)

	p.hand(bridge)
	p.hand(held)
	p.handle(BridgeHandle, p.inside(bridge), "bridge hand", Upright)
	p.handle(GripHandle, p.inside(grip), "grip hand", Upright)
	p.stanceDimensions(tip, bridge, grip)
}

// breakMark draws the pair of short strokes that show that a piece is left out.
func (p *pen) breakMark(at, a, b Point) {
	angle := math.Atan2(b.Y-a.Y, b.X-a.X)
	for _, off := range []float64{-3, 3} {
		c := Point{at.X + off*math.Cos(angle), at.Y + off*math.Sin(angle)}
		dx, dy := 7*math.Cos(angle+2), 7*math.Sin(angle+2)
		p.line(Stroke{Stick, 1.2, Solid}, Point{c.X - dx, c.Y - dy}, Point{c.X + dx, c.Y + dy})
	}
}

func (p *pen) hand(at Point) {
	p.circle(at, 8*p.heavy(), Stroke{Stick, 2, Solid}, Ground)
	p.line(Stroke{Stick, 1.2, Solid}, Point{at.X - 4, at.Y}, Point{at.X + 4, at.Y})
	p.line(Stroke{Stick, 1.2, Solid}, Point{at.X, at.Y - 4}, Point{at.X, at.Y + 4})
}

// stanceDimensions writes bridge and grip lengths beside the cue, on the side away from
// which the butt leans, or on the other side if only there is room for the text of the
// bridge.
func (p *pen) stanceDimensions(tip, bridge, grip Point) {
	side := 1.0
	if grip.X > p.plan.origin.X {
		side = -1
	}
	if p.v.Left == (side > 0) && math.Abs(grip.X-p.plan.origin.X) < 12 {
		side = -side // nearly straight: away from the section of the ball
	}
	face := p.plan.at(0, -float64(p.s.GearBall().Radius)).Y
	x := p.besideCue(side, tip, bridge, grip)
	text := p.alongside(ofBridge, "bridge", x, face, bridge.Y, side)
	if other := p.besideCue(-side, tip, bridge, grip); !p.fits(text) {
		if there := p.alongside(ofBridge, "bridge", other, face, bridge.Y, -side); p.fits(there) {
			side, x, text = -side, other, there
		}
	}
	soft := Stroke{Soft, 0.8, Solid}
	p.line(soft, Point{p.plan.origin.X + side*(p.plan.ball+4), face}, Point{x + side*6, face})
	p.line(soft, Point{bridge.X + side*12, bridge.Y}, Point{x + side*6, bridge.Y})
	p.line(soft, Point{grip.X + side*12, grip.Y}, Point{x + side*6, grip.Y})
	p.dimension(ofBridge, Point{x, face}, Point{x, bridge.Y}, Soft)
	p.dimension(ofGrip, Point{x, bridge.Y}, Point{x, grip.Y}, Soft)
	p.wishes = append(p.wishes, text, p.alongside(ofGrip, "grip", x, bridge.Y, grip.Y, side))
}

// besideCue returns the x at which a vertical line is clear of the ball and the cue on
// one side.
func (p *pen) besideCue(side float64, ends ...Point) float64 {
	x := p.plan.origin.X + side*(p.plan.ball+15)
	for _, end := range ends {
		if reach := end.X + side*20; (reach-x)*side > 0 {
			x = reach
		}
	}
	return x
}

// alongside returns a key's text beside a vertical line, at its middle or elsewhere along
// it.
func (p *pen) alongside(about rank, key string, x, from, to, side float64) *wish {
	t := Text{Words: p.named(key, key), Size: p.typeSize(), Ink: Soft}
	outer, inner := FromStart, ToEnd
	if side < 0 {
		outer, inner = inner, outer
	}
	var out, in []Text
	for _, part := range []float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.12, 0.88, 0.05, 0.95} {
		y := from + part*(to-from) + 0.275*t.Size
		out = append(out, Text{At: Point{x + side*7, y}, Anchor: outer})
		in = append(in, Text{At: Point{x - side*7, y}, Anchor: inner})
	}
	return &wish{about: about, text: t, spots: append(out, in...), firm: true}
}
