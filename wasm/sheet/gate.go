package sheet

import (
	"pivotbench/core/contact"
	"pivotbench/core/gear"
	"pivotbench/core/shot"
	"pivotbench/core/vec"
)

// gate draws the blockers as hatched circles marked L and R. If the sideways direction is
// stretched, the balls stay round and cannot show their edges, so posts mark the corridor
// of the cue ball's centre.
func (p *pen) gate() {
	if p.s.Gate == 0 {
		return
	}
	r := p.s.GearBall().Radius
	left, right := contact.Posts(gear.Gate{Dist: p.s.Gate, Gap: p.s.Gap}, r)
	verdict := p.res.Reading.Verdict.Value
	p.blocker(left, -1, "L", verdict == shot.TouchesLeft)
	p.blocker(right, 1, "R", verdict == shot.TouchesRight)
	p.gapDimension(left, right, float64(r))
	p.handle(GapHandle, p.inside(p.plan.vec(right)), "gap between the blockers", Sideways)

	at := p.plan.vec(left)
	edge := p.inside(Point{at.X - p.plan.ball - 40, at.Y})
	level := [2]Point{{edge.X, at.Y}, {at.X - p.plan.ball - 4, at.Y}}
	p.line(Stroke{Soft, 1, Dashed}, level[0], level[1])
	p.measure(ofGate, level[0], level[1])
	p.handle(GateHandle, edge, "distance of the gate", Upright)
	p.want(ofGate, Text{Words: p.named("gate", "gate"), Size: p.typeSize(), Ink: Soft},
		Text{At: Point{edge.X - 12, at.Y - 12}, Anchor: FromStart},
		Text{At: Point{edge.X - 12, at.Y + 22}, Anchor: FromStart},
		Text{At: Point{edge.X - 12, at.Y + 4}, Anchor: ToEnd},
		Text{At: Point{edge.X + 8, at.Y + 18}, Anchor: FromStart},
		Text{At: Point{edge.X + 8, at.Y - 10}, Anchor: FromStart},
	)
}

// blocker draws one blocker, and its post if the sheet is stretched. side is −1 for the
// left one.
func (p *pen) blocker(at vec.V, side float64, mark string, touched bool) {
	c, st := p.plan.vec(at), Stroke{Line, 1.4, Solid}
	if touched {
		st = Stroke{Off, 2.4, Solid}
	}
	p.circle(c, p.plan.ball, st, Ground)
	p.hatch(c, p.plan.ball, Stroke{st.Ink, 1, Solid})
	p.circle(c, p.plan.ball, st, "")
	size := p.typeSize()
	letter := func(x, y float64) Text { return Text{At: Point{c.X + side*x, c.Y + y}, Anchor: Middle} }
	out, up, down := p.plan.ball+0.7*size, -6-0.25*size, 6+0.8*size // clear of the handle's arrowhead
	p.want(ofBlocker, Text{Words: mark, Size: size, Bold: true, Ink: st.Ink},
		letter(out, up), letter(out, down), letter(0, -p.plan.ball-5), letter(0, p.plan.ball+5+0.75*size)).firm = true
	if p.plan.stretch == 1 {
		return
	}
	post := p.plan.at(side*float64(p.s.Gap/2-p.s.GearBall().Radius), at.Y)
	if (c.X-post.X)*side < p.plan.ball {
		return // the blockers overlap the path: there is no corridor on this side
	}
	p.line(st, Point{c.X - side*p.plan.ball, c.Y}, post)
	p.line(Stroke{st.Ink, 2, Solid}, Point{post.X, post.Y - 9}, Point{post.X, post.Y + 9})
}

// gapDimension dimensions the clear width beyond the blockers. On a stretched sheet its
// ends are not at the edges of the circles.
func (p *pen) gapDimension(left, right vec.V, r float64) {
	at, held := p.plan.vec(right), p.inside(p.plan.vec(right))
	y := at.Y - p.plan.ball - 9
	a, b := p.plan.at(left.X+r, 0), p.plan.at(right.X-r, 0)
	if p.plan.stretch == 1 && b.X-a.X > 2*tick {
		p.dimension(ofGap, Point{a.X, y}, Point{b.X, y}, Soft)
	} else {
		p.measure(ofGap, held, held)
	}
	p.want(ofGap, Text{Words: p.named("gap", "gap"), Size: p.typeSize(), Ink: Soft},
		Text{At: Point{at.X + p.plan.ball + 4 + 1.3*p.typeSize(), at.Y + 4}, Anchor: FromStart},
		Text{At: Point{b.X + p.plan.ball + 8, y + 1}, Anchor: FromStart},
		Text{At: Point{a.X - p.plan.ball - 8, y + 1}, Anchor: ToEnd},
		Text{At: Point{held.X - 24, y + 1}, Anchor: ToEnd},
		Text{At: Point{at.X - 4, at.Y + p.plan.ball + 4 + p.typeSize()}, Anchor: FromStart},
	)
}

// inside moves a point onto the sheet, where a finger can reach it.
func (p *pen) inside(at Point) Point {
	const edge = 24
	return Point{min(max(at.X, edge), p.v.Width-edge), min(max(at.Y, edge), p.v.Height-edge)}
}
