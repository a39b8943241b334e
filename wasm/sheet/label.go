package sheet

import (
	"math"
	"strings"
	"unicode/utf8"

	"pivotbench/core/motion"
)

// A box is the rectangle that a text occupies.
type box struct{ left, top, right, bottom float64 }

func (a box) meets(b box) bool {
	return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
}

// holds reports whether another box lies entirely inside.
func (a box) holds(b box) bool {
	return a.left < b.left && b.right < a.right && a.top < b.top && b.bottom < a.bottom
}

// apart returns the distance between two boxes.
func (a box) apart(b box) float64 {
	return math.Hypot(max(a.left-b.right, b.left-a.right, 0), max(a.top-b.bottom, b.top-a.bottom, 0))
}

// width estimates a text's width. The font of a painter may differ a little, which the
// gap between texts allows for.
func (t *Text) width() float64 {
	em := 0.54
	if t.Bold {
		em = 0.59
	}
	return em * t.Size * float64(utf8.RuneCountInString(t.Words))
}

// framed returns the width reserved for a text with a frame around it. The text must not
// leave the frame in the widest font that a device may have, so this depends on its
// letters.
func (t *Text) framed() float64 {
	em := 0.0
	for _, r := range t.Words {
		switch {
		case strings.ContainsRune(" .,:;'|ijlI", r):
			em += 0.33
		case strings.ContainsRune("tfr-/()°", r):
			em += 0.42
		case strings.ContainsRune("mwMW%×…@", r):
			em += 0.95
		default:
			em += 0.64
		}
	}
	if t.Bold {
		em *= 1.08
	}
	return max(em*t.Size, t.width())
}

// box returns the rectangle that the text occupies, with the room before it if it is level.
func (t *Text) box() box {
	w, up, down := t.width(), 0.8*t.Size, 0.25*t.Size
	back := map[Anchor]float64{FromStart: 0, Middle: w / 2, ToEnd: w}[t.Anchor]
	if t.Turned {
		return box{t.At.X - up, t.At.Y - w + back, t.At.X + down, t.At.Y + back}
	}
	return box{t.At.X - back - t.lead, t.At.Y - up, t.At.X - back + w, t.At.Y + down}
}

// paper returns the background of a text where a line would otherwise run through it.
func (t *Text) paper() Path {
	b := t.box()
	left, top, right, bottom := b.left-3, b.top-2, b.right+3, b.bottom+2
	return Path{Points: []Point{{left, top}, {right, top}, {right, bottom}, {left, bottom}}, Fill: Ground}
}

// along keeps texts away from a line, by so much on either side.
func (p *pen) along(half float64, points ...Point) {
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		for d, long := 0.0, math.Hypot(b.X-a.X, b.Y-a.Y); d <= long; d += 2 * half {
			c := toward(a, b, d)
			p.taken = append(p.taken, box{c.X - half, c.Y - half, c.X + half, c.Y + half})
		}
	}
}

// around keeps texts away from a circle.
func (p *pen) around(at Point, radius float64) {
	p.taken = append(p.taken, box{at.X - radius, at.Y - radius, at.X + radius, at.Y + radius})
}

// keepClear keeps texts away from what the eye follows (the path, the cue, the balls) and
// from the page's buttons.
func (p *pen) keepClear() {
	if !p.v.Board {
		p.taken = append(p.taken, p.v.corner())
	}
	if p.res.Reading.Heading.Err() == nil {
		tip, _, grip := p.hands()
		p.along(5, tip, toward(grip, tip, -20))
		reach := p.plan.ray(p.angleReach(), p.res.Reading.Heading.Value)
		p.along(2, p.plan.origin, reach)
	}
	p.around(p.plan.origin, p.plan.ball+2)
	p.around(p.plan.at(0, float64(p.s.Dist)), p.plan.ball+2)
	if p.res.Launched == nil {
		for i := range p.res.Path.Segments() {
			if s := &p.res.Path.Segments()[i]; s.Phase != motion.Rest {
				p.along(3, p.inSight(&p.res.Path, s)...)
			}
		}
	}
	if p.pot != nil {
		p.along(4, p.after...)
		p.around(p.plan.vec(p.centre), p.plan.ball+2)
	}
	if p.s.Gate > 0 {
		for _, side := range []float64{-1, 1} {
			p.around(p.plan.at(side*float64(p.s.Gap/2+p.s.GearBall().Radius), float64(p.s.Gate)), p.plan.ball+2)
		}
	}
}

// free reports whether a text would be on the sheet and on nothing that texts keep away
// from.
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

// drops are how far a text without room may be moved up or down, in multiples of its
// size.
var drops = []float64{0, 1.2, -1.2, 2.4, -2.4, 3.6, -3.6}

// place writes a text at the first of some places with room, moved up or down a little if
// none has. If there is no room at all it is left out, since overlapping texts cannot be
// read either, and the controls have every value too.
func (p *pen) place(t Text, places ...Text) {
	if t, ok := t.first(places, drops, p.free); ok {
		p.text(t)
	}
}

// first returns a text at the first acceptable place.
func (t Text) first(places []Text, drops []float64, will func(*Text) bool) (Text, bool) {
	for _, drop := range drops {
		for _, spot := range places {
			t.At, t.Anchor = spot.At, spot.Anchor
			t.At.Y += drop * t.Size
			if will(&t) {
				return t, true
			}
		}
	}
	return t, false
}
