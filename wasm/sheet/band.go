package sheet

import (
	"math"

	"pivotbench/core/margin"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
	"pivotbench/wasm/app"
)

// newBand returns the strokes from which the edges of the band are computed: few enough
// to do so for every move of a finger.
func newBand() *margin.Sampler { return margin.NewSampler(400) }

// band draws the edges between which nine strokes of ten pass, given the player's
// scatter.
func (p *pen) band() {
	if p.v.Sampler == nil || p.res.Launched != nil {
		return
	}
	const places = 9
	far := float64(max(p.s.Dist, p.s.Gate))
	dists := make([]unit.Length, places)
	for i := range dists {
		dists[i] = unit.Length(far * float64(i+1) / places)
	}
	sh := p.s.Shot()
	left, right := []Point{p.plan.origin}, []Point{p.plan.origin}
	for _, span := range p.v.Sampler.Band(&sh, p.s.Scatter, 0.9, dists) {
		if span.Reach < 0.5 {
			break // most strokes stop before this, and an edge would be that of the few others
		}
		left = append(left, p.onCircle(span.Dist, span.From))
		right = append(right, p.onCircle(span.Dist, span.To))
	}
	st := Stroke{Way, 1.2, Dotted}
	p.line(st, left...)
	p.line(st, right...)
	end := right[len(right)-1]
	p.want(ofBall, Text{Words: "9 shots in 10", Size: p.typeSize(), Ink: Way},
		Text{At: Point{end.X + 8, end.Y + 14}, Anchor: FromStart},
		Text{At: Point{left[len(left)-1].X - 8, end.Y + 14}, Anchor: ToEnd})
}

// onCircle returns the point on a circle about the ball at a sideways offset, on the far
// side.
func (p *pen) onCircle(radius, x unit.Length) Point {
	return p.plan.at(float64(x), math.Sqrt(math.Max(0, float64(radius*radius-x*x))))
}

// earlier draws the earlier shot faintly.
func (p *pen) earlier() {
	if p.v.Earlier == nil {
		return
	}
	s := *p.v.Earlier
	m := app.Model{Scene: s}
	was := pen{s: &s, res: m.Play(), v: p.v, plan: p.plan}
	if was.res.Launched != nil {
		return
	}
	faint := Stroke{Soft, 1.2, Dotted}
	way := was.trace(&was.res.Path, vec.V{}, 1.2*float64(max(s.Dist, s.Gate)))
	p.line(faint, way...)
	p.along(3, way...)
	p.beside = &was.res.Path
	tip, _, grip := was.hands()
	p.line(faint, tip, grip)
}
