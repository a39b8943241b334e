package sheet

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/wasm/phrase"
)

// apart dimensions the distance between two paths at the target's distance: that of this
// shot, and that of the earlier shot or the only other cue.
func (p *pen) apart() {
	if p.beside == nil || p.res.Launched != nil || p.pot != nil {
		return
	}
	var x [2]float64
	for i, way := range []*motion.Path{&p.res.Path, p.beside} {
		when, err := way.AtCircle(p.s.Dist)
		if err != nil {
			return
		}
		there, _ := way.At(when)
		x[i] = there.Pos.X
	}
	y := p.plan.at(0, float64(p.s.Dist)).Y - p.plan.ball - 10 - 2*p.typeSize()
	from, to := p.plan.at(x[0], 0).X, p.plan.at(x[1], 0).X
	if math.Abs(from-to) > 1.5 {
		p.dimension(ofApart, Point{from, y}, Point{to, y}, Line)
	}
	p.want(ofApart, Text{Words: phrase.Small(p.s, math.Abs(x[0]-x[1])) + " apart", Size: p.typeSize(), Ink: Line},
		Text{At: Point{max(from, to) + 8, y + 4}, Anchor: FromStart}, Text{At: Point{min(from, to) - 8, y + 4}, Anchor: ToEnd})
}
