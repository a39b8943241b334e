package sheet

import (
	"pivotbench/core/motion"
	"pivotbench/core/replay"
	"pivotbench/core/vec"
	"pivotbench/wasm/phrase"
)

// cueBall draws the cue ball, at rest or where it is at the moment shown.
func (p *pen) cueBall() {
	o := p.plan.origin
	if f := p.v.Frame; f != nil && f.Time > 0 {
		p.start(o)
		p.under(&f.Cue, vec.V{})
		return
	}
	p.circle(o, p.plan.ball, Stroke{Line, 1.6, Solid}, Ground)
	p.line(Stroke{Line, 0.8, Solid}, Point{o.X - 3, o.Y}, Point{o.X + 3, o.Y})
	p.line(Stroke{Line, 0.8, Solid}, Point{o.X, o.Y - 3}, Point{o.X, o.Y + 3})
}

// start marks where a moving ball was at first.
func (p *pen) start(at Point) { p.circle(at, p.plan.ball, Stroke{Soft, 1, Dotted}, "") }

// under draws a moving ball, given where its path begins. It is dashed in the air, and a
// radius on it turns about the vertical as the ball does.
func (p *pen) under(b *replay.Ball, from vec.V) {
	at := p.plan.vec(b.Pos.Add(from))
	rim := Stroke{Line, 1.8, Solid}
	if b.Phase == motion.Fly {
		rim.Dash = Dashed
	}
	p.circle(at, p.plan.ball, rim, Ground)
	end := Point{at.X + p.plan.ball*b.Turned.Sin(), at.Y - p.plan.ball*b.Turned.Cos()}
	p.line(Stroke{Line, 1.4, Solid}, at, end)
	p.circle(end, 2, Stroke{Line, 1, Solid}, Line)
}

// moment writes the speed beside the ball, and what it is doing.
func (p *pen) moment() {
	f := p.v.Frame
	if f == nil || f.Time <= 0 {
		return
	}
	at := p.plan.vec(f.Cue.Pos)
	side := p.plan.ball + 8
	p.place(Text{Words: phrase.Pace(p.s, &f.Cue), Size: p.typeSize(), Bold: true, Ink: Way},
		Text{At: Point{at.X + side, at.Y + 4}, Anchor: FromStart}, Text{At: Point{at.X - side, at.Y + 4}, Anchor: ToEnd})
}

// stroked returns where the tip and the grip hand are at the moment shown. The distance
// behind the bridge is drawn shortened, and so is the movement there.
func (p *pen) stroked(tip, grip Point) (Point, Point) {
	f := p.v.Frame
	if f == nil {
		return tip, grip
	}
	way := float64(f.Stick) * p.s.Elev.Cos()
	turn := p.res.Turn.Heading
	dx, dy := way*turn.Sin()*p.plan.scale*p.plan.stretch, -way*turn.Cos()*p.plan.scale
	return Point{tip.X + dx, tip.Y + dy}, Point{grip.X + gripScale*dx, grip.Y + gripScale*dy}
}
