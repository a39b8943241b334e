package sheet

import (
	"pivotbench/core/scenario"
	"pivotbench/core/strike"
	"pivotbench/wasm/phrase"
)

// sectionRadius returns the radius of the section of the ball, in pixels.
func (p *pen) sectionRadius() float64 { return sectionRadius(p.v) }

func sectionRadius(v View) float64 {
	return min(max(min(v.Width, v.Height)*0.115, 32), 110)
}

// sectionAt returns its centre, in the corner away from the writing hand.
func sectionAt(v View) Point {
	r := sectionRadius(v)
	at := Point{r + 16, v.Height - r - 22 - typeSize(v)}
	if v.Left {
		at.X = v.Width - at.X
	}
	return at
}

// section draws the ball as seen along the cue: centre cross, offset scale, the circle
// beyond which the tip slips, the tip, and where its dome touches.
func (p *pen) section() {
	c, r := sectionAt(p.v), p.sectionRadius()
	shot := p.s.Shot()
	p.circle(c, r, Stroke{Line, 1.6, Solid}, Ground)
	p.taken = append(p.taken, box{c.X - r, c.Y - r, c.X + r, c.Y + r})
	for i := -9; i <= 9; i++ {
		size := 2.0
		if i%5 == 0 {
			size = 4
		}
		d := float64(i) * r / 10
		p.line(Stroke{Soft, 1, Solid}, Point{c.X + d, c.Y - size}, Point{c.X + d, c.Y + size})
		p.line(Stroke{Soft, 1, Solid}, Point{c.X - size, c.Y + d}, Point{c.X + size, c.Y + d})
	}
	p.line(Stroke{Soft, 1, Solid}, Point{c.X - r, c.Y}, Point{c.X + r, c.Y})
	p.line(Stroke{Soft, 1, Solid}, Point{c.X, c.Y - r}, Point{c.X, c.Y + r})
	if k, err := strike.MassRatio(shot.Ball, shot.Cue); err == nil {
		p.circle(c, r*strike.MostOffset(k, shot.Cue.Tip), Stroke{Off, 1.2, Dashed}, "")
	}

	ink := Stick
	if p.res.Launched != nil {
		ink = Off
	}
	axis := 1 + float64(p.s.Tip/shot.Ball.Radius)
	tip := Point{c.X + r*axis*p.s.Side, c.Y - r*axis*p.s.Height}
	p.circle(tip, r*float64(p.s.TipWidth/2/shot.Ball.Radius), Stroke{ink, 1.4, Solid}, "")
	touch := Point{c.X + r*p.s.Side, c.Y - r*p.s.Height}
	p.circle(touch, 3.5, Stroke{ink, 1.4, Solid}, ink)
	p.handle(TipHandle, touch, "tip contact", Anywhere)

	x, anchor := c.X-r, FromStart
	if p.v.Left {
		x, anchor = c.X+r, ToEnd
	}
	room := p.v.Width - p.titleWide() - 24 // up to the title block
	t := Text{At: Point{x, c.Y + r + 5 + p.typeSize()}, Size: p.typeSize(), Ink: Soft, Anchor: anchor}
	for _, t.Words = range contactWords(p.s) {
		if t.width() <= min(room, p.v.Width/3) { // more would be in the way of the cue
			break
		}
	}
	t.Size *= min(1, room/t.width())
	p.text(t)
}

// contactWords says where the tip touches: in full, shorter, and as short as can be.
func contactWords(s *scenario.Scenario) []string {
	english, side, high := phrase.English(s), phrase.Side(s), phrase.High(s)
	full := phrase.EnglishInFull(s)
	switch {
	case s.Side == 0 && s.Height == 0:
		return []string{"tip at centre"}
	case s.Side == 0:
		return []string{"no english, tip " + high, "tip " + high}
	case s.Height == 0:
		return []string{full, english, side}
	}
	return []string{full + ", tip " + high, english + ", tip " + high, side + ", " + high}
}
