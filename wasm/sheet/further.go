package sheet

import (
	"cmp"
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// further draws the ball's path with each compared cue, and labels it with the cue's
// name.
func (p *pen) further() {
	ways := [len(cueDashes)]*motion.Path{&p.res.Path}
	names := [len(cueDashes)]string{p.s.Name}
	several := 0
	for i, c := range p.s.More {
		if c.Pivot == 0 {
			continue
		}
		several++
		m := app.Model{Scene: p.s.With(c)}
		res := m.Play()
		if res.Launched != nil {
			continue
		}
		ways[i+1], names[i+1] = &res.Path, c.Name
		far := 1.2 * float64(max(p.s.Dist, p.s.Gate))
		way := p.trace(&res.Path, vec.V{}, far)
		p.line(CueStroke(i+1, 1.8), way...)
		p.along(3, way...)
	}
	if several == 0 {
		return
	}
	if p.res.Launched != nil {
		ways[0] = nil
	}
	if several == 1 && p.beside == nil {
		for _, way := range ways[1:] {
			if way != nil {
				p.beside = way
			}
		}
	}
	for i, way := range ways {
		if way != nil {
			p.nameWay(ways[:], phrase.CueName(names[i], i), i)
		}
	}
}

// nameWay writes a cue's name beside the ball's path with a leader to it. Each name has a
// distance of its own, so that they stay apart, and is clear of the blockers. A name is
// shortened only where there is no room for all of it. It goes on
// the side where the leader crosses fewer other paths, if there is room.
func (p *pen) nameWay(ways []*motion.Path, name string, i int) {
	way := ways[i]
	dist := p.s.Dist * unit.Length(0.92-0.1*float64(i))
	if ball := 2 * p.s.GearBall().Radius; p.s.Gate > 0 && dist < p.s.Gate+ball && dist > p.s.Gate-2*ball {
		dist = max(p.s.Gate-2*ball-ball*unit.Length(i), ball)
	}
	when, err := way.AtCircle(dist)
	if err != nil {
		when = way.Stop()
	}
	there, _ := way.At(when)
	at, side, lefter := p.plan.vec(there.Pos), 1.0, 0
	for _, other := range ways {
		if other == nil {
			continue
		}
		if when, err := other.AtCircle(dist); err == nil {
			beside, _ := other.At(when)
			lefter += cmp.Compare(there.Pos.X, beside.Pos.X)
		}
	}
	if lefter < 0 {
		side = -1
	}
	if !p.onSheet(at) {
		return
	}
	t := Text{Words: name, Size: p.typeSize(), Ink: cueInks[i]}
	var spots []Text
	for _, side := range []float64{side, -side} {
		anchor := FromStart
		if side < 0 {
			anchor = ToEnd
		}
		for _, off := range []float64{24, 44, 70, 100} {
			spots = append(spots, Text{At: Point{at.X + side*off, at.Y + 4}, Anchor: anchor})
		}
	}
	w := p.want(ofCue, t, spots...)
	w.brief = fitted(t, p.v.Width/4).Words
	w.follow = func(t Text) {
		end := Point{t.At.X - math.Copysign(3, t.At.X-at.X), t.At.Y - 4}
		p.circle(at, 2*p.heavy(), Stroke{cueInks[i], 1, Solid}, cueInks[i])
		p.line(Stroke{cueInks[i], 0.8, Solid}, at, end)
		p.along(2, at, end)
	}
}
