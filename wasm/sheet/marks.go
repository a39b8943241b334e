package sheet

import "pivotbench/core/unit"

// marks draws where the balls of a sitting were marked, each on its line: a cross,
// an upright one, a ring and a square tell the cues apart without colour.
func (p *pen) marks() {
	lines := map[unit.Length][2]Point{}
	const half = 5
	ink := Stroke{Off, 1.8, Solid}
	for _, m := range p.v.Marks {
		at := p.plan.at(float64(m.At), float64(m.Line))
		ends, ok := lines[m.Line]
		if !ok {
			ends = [2]Point{at, at}
		}
		ends[0].X, ends[1].X = min(ends[0].X, at.X), max(ends[1].X, at.X)
		lines[m.Line] = ends
		switch m.Cue % 4 {
		case 0:
			p.line(ink, Point{at.X - half, at.Y - half}, Point{at.X + half, at.Y + half})
			p.line(ink, Point{at.X - half, at.Y + half}, Point{at.X + half, at.Y - half})
		case 1:
			p.line(ink, Point{at.X - half, at.Y}, Point{at.X + half, at.Y})
			p.line(ink, Point{at.X, at.Y - half}, Point{at.X, at.Y + half})
		case 2:
			p.circle(at, half, ink, "")
		default:
			p.line(ink, Point{at.X - half, at.Y - half}, Point{at.X + half, at.Y - half}, Point{at.X + half, at.Y + half}, Point{at.X - half, at.Y + half}, Point{at.X - half, at.Y - half})
		}
	}
	for _, ends := range lines {
		const beyond = 14
		p.line(Stroke{Soft, 1, Dotted}, Point{ends[0].X - beyond, ends[0].Y}, Point{ends[1].X + beyond, ends[1].Y})
	}
}
