package sheet

import (
	"math"
	"unicode/utf8"

	"pivotbench/core/motion"
)

// A box is the room a text takes.
type box struct{ left, top, right, bottom float64 }

func (a box) meets(b box) bool {
	return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
}

// width estimates a text's width: a painter's own font may differ a little,
// which the gap between texts allows for.
func (t *Text) width() float64 {
	em := 0.54
	if t.Bold {
		em = 0.59
	}
	return em * t.Size * float64(utf8.RuneCountInString(t.Words))
}

// box is where the text is.
func (t *Text) box() box {
	w, up, down := t.width(), 0.8*t.Size, 0.25*t.Size
	back := map[Anchor]float64{FromStart: 0, Middle: w / 2, ToEnd: w}[t.Anchor]
	if t.Turned {
		return box{t.At.X - up, t.At.Y - w + back, t.At.X + down, t.At.Y + back}
	}
	return box{t.At.X - back, t.At.Y - up, t.At.X - back + w, t.At.Y + down}
}

// keepClear keeps texts off what the eye follows: the path, the cue, the
// blockers; and off the page's buttons.
func (p *pen) keepClear() {
	along := func(half float64, points ...Point) {
		for i := 1; i < len(points); i++ {
			a, b := points[i-1], points[i]
			for d, long := 0.0, math.Hypot(b.X-a.X, b.Y-a.Y); d <= long; d += 2 * half {
				c := toward(a, b, d)
				p.taken = append(p.taken, box{c.X - half, c.Y - half, c.X + half, c.Y + half})
			}
		}
	}
	if !p.v.Board {
		p.taken = append(p.taken, p.v.corner())
	}
	if p.res.Reading.Heading.Err == nil {
		tip, _, grip := p.hands()
		along(5, tip, toward(grip, tip, -20))
		reach := p.plan.ray(p.angleReach(), p.res.Reading.Heading.Value)
		along(2, p.plan.origin, reach)
	}
	if p.res.Launched == nil {
		for i := range p.res.Path.Segments() {
			if s := &p.res.Path.Segments()[i]; s.Phase != motion.Rest {
				along(3, p.inSight(&p.res.Path, s)...)
			}
		}
	}
	if p.pot != nil {
		along(4, p.after...)
		c := p.plan.vec(p.centre)
		along(p.plan.ball+2, c, Point{c.X + 1, c.Y})
	}
	if p.s.Gate > 0 {
		for _, side := range []float64{-1, 1} {
			c := p.plan.at(side*float64(p.s.Gap/2+p.s.GearBall().Radius), float64(p.s.Gate))
			along(p.plan.ball+2, c, Point{c.X + 1, c.Y})
		}
	}
}

// free reports whether a text would be on the sheet and on no other text.
func (p *pen) free(t *Text) bool {
	const edge = 3
	b := t.box()
	if b.left < edge || b.top < edge || b.right > p.v.Width-edge || b.bottom > p.v.Height-edge {
		return false
	}
	for _, other := range p.taken {
		if b.meets(other) {
			return false
		}
	}
	return true
}

// place writes a text at the first of the places where there is room, moved
// up or down a little if none has, and returns where it went. If there is no
// room at all it is left out, as two texts on each other can't be read either:
// the controls have every value too.
func (p *pen) place(t Text, places ...Text) (at Text, ok bool) {
	for _, drop := range []float64{0, 1.2, -1.2, 2.4, -2.4, 3.6, -3.6} {
		for _, spot := range places {
			t.At, t.Anchor = spot.At, spot.Anchor
			t.At.Y += drop * t.Size
			if p.free(&t) {
				p.text(t)
				return t, true
			}
		}
	}
	return t, false
}
