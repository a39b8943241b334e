package sheet

import (
	"maps"
	"math"
	"slices"

	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

const (
	markHalf = 5.0  // half the size of a mark, in pixels
	laneGap  = 10.0 // from a line to the bands of the first two cues, and between lanes
)

// sitting draws the marks of a sitting, each on its line, and where nine strokes in ten
// of each cue are expected to cross it.
func (p *pen) sitting() {
	of := &p.v.Sitting
	p.styles = CueStyles(p.s, of.Cues)
	ends := map[unit.Length][2]float64{}
	reach := func(line unit.Length, xs ...unit.Length) {
		for _, x := range xs {
			at := p.onLine(x, line).X
			e, ok := ends[line]
			if !ok {
				e = [2]float64{at, at}
			}
			ends[line] = [2]float64{min(e[0], at), max(e[1], at)}
		}
	}
	for _, b := range of.Bands {
		reach(b.Line, b.From, b.To)
	}
	for _, m := range of.Marks {
		reach(m.Line, m.At)
	}
	if of.Placed.Line > 0 {
		reach(of.Placed.Line, of.Placed.At, 0)
	}
	for _, line := range slices.Sorted(maps.Keys(ends)) {
		const beyond = 14
		e, y := ends[line], p.onLine(0, line).Y
		p.line(Stroke{Soft, 1, Dotted}, Point{e[0] - beyond, y}, Point{e[1] + beyond, y})
	}
	named := map[int]bool{}
	for _, b := range of.Bands {
		if b.Cue < len(of.Cues) {
			p.bandOf(b)
		}
	}
	for i := len(of.Bands) - 1; i >= 0; i-- { // the band of the next stroke comes last
		if b := of.Bands[i]; !named[b.Cue] && b.Cue < len(of.Cues) {
			named[b.Cue] = true
			p.nameBand(b)
		}
	}
	for _, m := range of.Marks {
		p.mark(p.styles[m.Cue], p.onLine(m.At, m.Line), 1.8)
	}
	if of.Placed.Line > 0 {
		p.placeMark(of.Placed)
	}
}

// onLine returns the point of the sheet at a sideways position on a line across the
// table.
func (p *pen) onLine(x, line unit.Length) Point {
	if p.v.folded() {
		return Point{p.v.Width/2 + float64(x)*p.v.across(p.s), p.v.stripLevel()}
	}
	return p.plan.at(float64(x), float64(line))
}

// lane returns the height of a cue's bands at a line: above it and below it in turn.
func (p *pen) lane(b app.Band) float64 {
	off := laneGap * float64(1+b.Cue/2)
	if b.Cue%2 == 0 {
		off = -off
	}
	return p.onLine(0, b.Line).Y + off
}

// bandOf draws a band as a bar with ends. That of the next stroke is heavier.
func (p *pen) bandOf(b app.Band) {
	y, from, to := p.lane(b), p.onLine(b.From, b.Line).X, p.onLine(b.To, b.Line).X
	st := CueStroke(p.styles[b.Cue], 1.4)
	half := 3.0
	if b.Next {
		st.Width, half = 3, 5
	}
	p.line(st, Point{from, y}, Point{to, y})
	for _, x := range []float64{from, to} {
		p.line(Stroke{st.Ink, st.Width, Solid}, Point{x, y - half}, Point{x, y + half})
	}
	p.along(3, Point{from, y}, Point{to, y})
}

// nameBand writes whose band it is, with the cue's mark before the name.
func (p *pen) nameBand(b app.Band) {
	y, from, to := p.lane(b), p.onLine(b.From, b.Line).X, p.onLine(b.To, b.Line).X
	ink := CueStroke(p.styles[b.Cue], 1).Ink
	t := fitted(Text{Words: phrase.CueName(p.v.Sitting.Cues[b.Cue], b.Cue), Size: p.typeSize(), Ink: ink}, p.v.Width/4)
	const room = 2*markHalf + 6
	t.lead = room
	base, wide := y+0.35*t.Size, t.width()
	p.want(ofBand, t,
		Text{At: Point{to + room + 6, base}, Anchor: FromStart},
		Text{At: Point{from - 8 - wide, base}, Anchor: FromStart},
		Text{At: Point{(from + to - wide + room) / 2, base + math.Copysign(t.Size, y-p.onLine(0, b.Line).Y)}, Anchor: FromStart},
	).follow = func(t Text) {
		p.mark(p.styles[b.Cue], Point{t.At.X - markHalf - 4, t.At.Y - 0.35*t.Size}, 1.8)
	}
}

// mark draws a mark: a cross, an upright cross, a ring or a square, by its cue's style.
func (p *pen) mark(style int, at Point, width float64) {
	const half = markHalf
	ink := Stroke{CueStroke(style, width).Ink, width, Solid}
	switch style % 4 {
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

// placeMark draws the mark of the next stroke, with its value and its handle.
func (p *pen) placeMark(m app.Marked) {
	at := p.onLine(m.At, m.Line)
	at.X = p.inside(at).X
	p.line(Stroke{CueStroke(p.styles[m.Cue], 1).Ink, 1.4, Solid}, Point{at.X, at.Y - 2*markHalf}, Point{at.X, at.Y + 2*markHalf})
	p.mark(p.styles[m.Cue], at, 2.6)
	p.handle(MarkHandle, at, "where the ball crosses the line", Sideways)
	if m.At == 0 {
		return
	}
	size := p.typeSize() * 1.1
	var spots []Text
	for _, y := range []float64{at.Y - 16, at.Y + 16 + 0.7*size} {
		spots = append(spots, Text{At: Point{at.X, y}, Anchor: Middle}, Text{At: Point{at.X + 22, y}, Anchor: FromStart}, Text{At: Point{at.X - 22, y}, Anchor: ToEnd})
	}
	p.want(ofMark, Text{Words: phrase.Sideways(p.s, m.At), Size: size, Bold: true, Ink: CueStroke(p.styles[m.Cue], 1).Ink}, spots...)
}
