package sheet

import (
	"math"
	"slices"

	"pivotbench/core/replay"
	"pivotbench/core/unit"
)

// table draws the paper's grid and the visible parts of the table: the edges of the bed
// and the sights.
func (p *pen) table() {
	step := float64(6 * unit.Inch)
	if p.s.Units == "cm" {
		step = 0.15
	}
	faint := Stroke{Grid, 1, Solid}
	pl := &p.plan
	for y := step * math.Ceil((pl.origin.Y-p.v.Height)/pl.scale/step); pl.at(0, y).Y > 0; y += step {
		p.line(faint, Point{0, pl.at(0, y).Y}, Point{p.v.Width, pl.at(0, y).Y})
	}
	// Sideways lines have the same spacing on paper as those along the table, whatever
	// the stretch.
	side := step * pl.scale
	for x := math.Mod(pl.origin.X, side); x < p.v.Width; x += side {
		p.line(faint, Point{x, 0}, Point{x, p.v.Height})
	}
	p.cushions()
}

// cushions draws the edges of the bed. The cue ball lies on the long centre line, a
// quarter of the way up or as near the end as the shot needs.
func (p *pen) cushions() {
	t := p.s.GearTable()
	r := p.s.GearBall().Radius
	long := float64(t.Length)
	bed := replay.Lay(t, r, max(p.s.Dist, p.s.Gate)+2*r)
	half, near, far := float64(bed.Half), float64(bed.Near), float64(bed.Far)
	rail := Stroke{Soft, 1.2, Solid}
	corners := []Point{p.plan.at(-half, near), p.plan.at(half, near), p.plan.at(half, far), p.plan.at(-half, far), p.plan.at(-half, near)}
	p.line(rail, corners...)
	p.bed = box{corners[3].X, corners[3].Y, corners[1].X, corners[1].Y}
	if t.Sights == 0 {
		return
	}
	space := long / float64(t.Sights)
	for i := range t.Sights + 1 {
		for _, x := range []float64{-half, half} {
			p.sight(p.plan.at(x, near+float64(i)*space))
		}
	}
	for i := 1; i < t.Sights/2; i++ {
		for _, y := range []float64{near, far} {
			p.sight(p.plan.at(-half+float64(i)*space, y))
		}
	}
}

// breakCushions puts paper behind texts that a cushion would run through. The first so
// many items are the table's.
func (p *pen) breakCushions(table int) {
	var paper []Item
	for _, item := range p.sheet.Items {
		if t, ok := item.(Text); ok && p.bed.meets(t.box()) && !p.bed.holds(t.box()) {
			paper = append(paper, t.paper())
		}
	}
	p.sheet.Items = slices.Insert(p.sheet.Items, table, paper...)
}

// sight draws a sight on a cushion.
func (p *pen) sight(at Point) {
	if at.X > 0 && at.X < p.v.Width && at.Y > 0 && at.Y < p.v.Height {
		p.circle(at, 2, Stroke{Soft, 1, Solid}, Ground)
	}
}

// aimLine draws the aim line from the ball to the top, and back to the player.
func (p *pen) aimLine() {
	p.line(Stroke{Aim, 1.4, DashDot}, Point{p.plan.origin.X, p.v.Height}, Point{p.plan.origin.X, 18})
}
