package sheet

// A rank is the subject of a text on the plan. If there is no room for all texts, those
// with the first ranks choose their places first, and the last are left out.
type rank int

const (
	ofMark rank = iota
	ofBridge
	ofBlocker
	ofSquirt
	ofArrival
	ofCue // the name of the cue of a path
	ofApart
	ofTurn
	ofTarget
	ofGate
	ofGap
	ofGrip
	ofBand // the name of the cue of a band
	ofBall // what the ball does, and all other texts
	ranks
)

// A wish is a text that waits for its place.
type wish struct {
	about  rank
	text   Text
	brief  string // to write instead where there is no room for the text; empty: nothing
	spots  []Text
	firm   bool       // only at one of the spots, not above or below them
	follow func(Text) // draws what belongs to the text, once it has a place
}

// A measured line is what a text belongs to: a dimension, or the level of something.
type measured struct {
	about rank
	line  box
}

// want requests a place for a text. It is assigned when everything else is drawn.
func (p *pen) want(about rank, t Text, spots ...Text) *wish {
	w := &wish{about: about, text: t, spots: spots}
	p.wishes = append(p.wishes, w)
	return w
}

// measure records that a horizontal or vertical line belongs to a text.
func (p *pen) measure(about rank, a, b Point) {
	p.along(2, a, b)
	p.measured = append(p.measured, measured{about, box{min(a.X, b.X), min(a.Y, b.Y), max(a.X, b.X), max(a.Y, b.Y)}})
}

// fits reports whether there is room for a wish on the sheet as drawn so far.
func (p *pen) fits(w *wish) bool {
	_, ok := w.text.first(w.spots, drops[:1], p.free)
	return ok
}

// grant places the requested texts by rank.
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
			will := func(t *Text) bool { return p.free(t) && p.unmistaken(about, t) }
			t, ok := w.text.first(w.spots, moved, will)
			if !ok && w.brief != "" {
				w.text.Words = w.brief
				t, ok = w.text.first(w.spots, moved, will)
			}
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

// unmistaken reports whether a text cannot be mistaken for the value of another line,
// because its own line is the nearest.
func (p *pen) unmistaken(about rank, t *Text) bool {
	b := t.box()
	b.top = (b.top + b.bottom) / 2
	b.bottom = b.top // a text that reaches a little beyond the end of its line is still beside it
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
