package sheet

// A rank is what a text of the plan is about. Where there is no room for all,
// the first named have the first choice of a place, and the last go without.
type rank int

const (
	ofBridge rank = iota
	ofBlocker
	ofSquirt
	ofArrival
	ofCue // whose path it is
	ofApart
	ofTurn
	ofTarget
	ofGate
	ofGap
	ofGrip
	ofBall // what it does, and the others
	ranks
)

// A wish is a text that waits for its place.
type wish struct {
	about  rank
	text   Text
	spots  []Text
	firm   bool       // nowhere but at one of the spots, not above or below them
	follow func(Text) // draws what goes with the text, once it has a place
}

// A measured line is what a text is read with: a dimension, or the level of
// something.
type measured struct {
	about rank
	line  box
}

// want has a text placed when all that is to be drawn is known.
func (p *pen) want(about rank, t Text, spots ...Text) *wish {
	w := &wish{about: about, text: t, spots: spots}
	p.wishes = append(p.wishes, w)
	return w
}

// measure says that a line, upright or level, is what a text is about.
func (p *pen) measure(about rank, a, b Point) {
	p.along(2, a, b)
	p.measured = append(p.measured, measured{about, box{min(a.X, b.X), min(a.Y, b.Y), max(a.X, b.X), max(a.Y, b.Y)}})
}

// fits reports whether a wish could be granted, as far as the sheet is drawn.
func (p *pen) fits(w *wish) bool {
	_, ok := w.text.first(w.spots, drops[:1], p.free)
	return ok
}

// grant places the texts that are wanted, by rank.
func (p *pen) grant() {
	for about := range ranks {
		for _, w := range p.wishes {
			if w.about != about {
				continue
			}
			moved := drops
			if w.firm {
				moved = drops[:1]
			}
			t, ok := w.text.first(w.spots, moved, func(t *Text) bool { return p.free(t) && p.unmistaken(about, t) })
			if !ok {
				continue
			}
			p.text(t)
			if w.follow != nil {
				w.follow(t)
			}
		}
	}
}

// unmistaken reports whether a text can't be read as the value of another's line:
// its own is the nearest to it.
func (p *pen) unmistaken(about rank, t *Text) bool {
	b := t.box()
	b.top = (b.top + b.bottom) / 2
	b.bottom = b.top // a text that reaches a little over the end of its line is still beside it
	const far = 1e9
	own, other := far, far
	for _, m := range p.measured {
		if d := b.apart(m.line); m.about == about {
			own = min(own, d)
		} else {
			other = min(other, d)
		}
	}
	return own == far || own < other
}
