package sheet

import "math"

// tick is half the length of the stroke at the end of a dimension line, in pixels.
const tick = 4

// dimension draws a dimension line.
func (p *pen) dimension(about rank, a, b Point, ink Ink) {
	p.measure(about, a, b)
	p.ticked(a, b, ink)
}

// ticked draws a horizontal or vertical line between two points, with ticks at its ends.
func (p *pen) ticked(a, b Point, ink Ink) {
	st := Stroke{ink, 1.2, Solid}
	p.line(st, a, b)
	for _, end := range []Point{a, b} {
		if math.Abs(a.X-b.X) > math.Abs(a.Y-b.Y) {
			p.line(st, Point{end.X, end.Y - tick}, Point{end.X, end.Y + tick})
		} else {
			p.line(st, Point{end.X - tick, end.Y}, Point{end.X + tick, end.Y})
		}
	}
}

// hatch fills a circle with slanted lines.
func (p *pen) hatch(at Point, radius float64, st Stroke) {
	space := max(radius/2.5, 3)
	for d := -radius + space/2; d < radius; d += space {
		half := math.Sqrt(radius*radius - d*d)
		// d is the distance perpendicular to the lines, which rise to the right.
		cx, cy := at.X+d*math.Sqrt2/2, at.Y+d*math.Sqrt2/2
		dx := half * math.Sqrt2 / 2
		p.line(st, Point{cx - dx, cy + dx}, Point{cx + dx, cy - dx})
	}
}
