package sheet

import (
	"math"
	"strings"
	"unicode/utf8"

	"pivotbench/core/motion"
)

// A box is the room a text takes.
type box struct{ left, top, right, bottom float64 }

func (a box) meets(b box) bool {
	return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
}

// holds reports whether the other box is all within.
func (a box) holds(b box) bool {
	return a.left < b.left && b.right < a.right && a.top < b.top && b.bottom < a.bottom
}

// apart is how far two boxes are from each other.
func (a box) apart(b box) float64 {
	return math.Hypot(max(a.left-b.right, b.left-a.right, 0), max(a.top-b.bottom, b.top-a.bottom, 0))
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

// framed is the width that a text with a frame around it is given: it must not
// leave that in the widest of the fonts that a device may have, which depends
// on the shapes of its letters.
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

// box is where the text is.
func (t *Text) box() box {
	w, up, down := t.width(), 0.8*t.Size, 0.25*t.Size
	back := map[Anchor]float64{FromStart: 0, Middle: w / 2, ToEnd: w}[t.Anchor]
	if t.Turned {
		return box{t.At.X - up, t.At.Y - w + back, t.At.X + down, t.At.Y + back}
	}
	return box{t.At.X - back, t.At.Y - up, t.At.X - back + w, t.At.Y + down}
}

// paper is what a text stands on where a line would run through it.
func (t *Text) paper() Path {
	b := t.box()
	left, top, right, bottom := b.left-3, b.top-2, b.right+3, b.bottom+2
	return Path{Points: []Point{{left, top}, {right, top}, {right, bottom}, {left, bottom}}, Fill: Ground}
}

// along keeps texts off a line, so far on either side of it.
func (p *pen) along(half float64, points ...Point) {
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		for d, long := 0.0, math.Hypot(b.X-a.X, b.Y-a.Y); d <= long; d += 2 * half {
			c := toward(a, b, d)
			p.taken = append(p.taken, box{c.X - half, c.Y - half, c.X + half, c.Y + half})
		}
	}
}

// around keeps texts off a circle.
func (p *pen) around(at Point, radius float64) {
	p.taken = append(p.taken, box{at.X - radius, at.Y - radius, at.X + radius, at.Y + radius})
}

// keepClear keeps texts off what the eye follows: the path, the cue, the
// balls; and off the page's buttons.
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

// free reports whether a text would be on the sheet, and on nothing that texts
// keep off.
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

// drops are how far a text may be moved up or down, in its own size, where it
// finds no room.
var drops = []float64{0, 1.2, -1.2, 2.4, -2.4, 3.6, -3.6}

// place writes a text at the first of the places where there is room, moved
// up or down a little if none has. If there is no room at all it is left out, as
// two texts on each other can't be read either: the controls have every value
// too.
func (p *pen) place(t Text, places ...Text) {
	if t, ok := t.first(places, drops, p.free); ok {
		p.text(t)
	}
}

// first is a text at the first of the places that will do.
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
