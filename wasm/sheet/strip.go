package sheet

import (
	"math"
	"slices"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// folded reports whether the sheet is too low for a plan, as when measuring at the table:
// then it is a strip that shows one line across the table.
func (v View) folded() bool { return v.Height < planLeast }

// stripLevel returns the height of the line on the strip.
func (v View) stripLevel() float64 { return math.Round(v.Height * 0.5) }

// stripLine returns the distance of the line that a strip shows: that of the mark being
// placed, or of the gate, or of the target.
func (v View) stripLine(s *scenario.Scenario) unit.Length {
	switch {
	case v.Sitting.Placed.Line > 0:
		return v.Sitting.Placed.Line
	case s.Gate > 0:
		return s.Gate
	}
	return s.Dist
}

// across returns how many pixels a metre sideways is at the line of marks.
func (v View) across(s *scenario.Scenario) float64 {
	if !v.folded() {
		pl := newPlan(s, v)
		return pl.scale * pl.stretch
	}
	// The mark being placed is left out, or the strip would change under the finger.
	half := max(3*unit.Inch, s.Gap/2)
	for _, m := range v.Sitting.Marks {
		half = max(half, unit.Abs(m.At))
	}
	for _, b := range v.Sitting.Bands {
		half = max(half, unit.Abs(b.From), unit.Abs(b.To))
	}
	const edge = 30
	return (v.Width/2 - edge) / float64(half)
}

// strip draws the line as the player sees it across the table: a scale from the aim line
// to either side, the posts of the gate, the marks, and where strokes are expected.
func (p *pen) strip() {
	line := p.v.stripLine(p.s)
	level, size := p.v.stripLevel(), p.typeSize()
	middle, foot := p.v.Width/2, p.v.Height-6
	p.line(Stroke{Aim, 1.2, DashDot}, Point{middle, 6}, Point{middle, foot - size})
	p.line(Stroke{Soft, 1, Solid}, Point{0, level}, Point{p.v.Width, level})
	u, _ := unit.LengthKind.Find(p.s.Units)
	scale := p.v.across(p.s)
	step := niceStep(60 / scale / u.SI)
	for n := 0.0; n*step*u.SI*scale < middle-12; n++ {
		for _, side := range []float64{-1, 1} {
			x := middle + side*n*step*u.SI*scale
			p.line(Stroke{Soft, 1, Solid}, Point{x, level - tick}, Point{x, level + tick})
			p.text(Text{At: Point{x, foot}, Words: unit.Round(n*step*u.SI, unit.LengthKind, p.s.Units, max(0, int(math.Ceil(-math.Log10(step))))), Size: size, Ink: Soft, Anchor: Middle})
			if n == 0 {
				break
			}
		}
	}
	p.stripGate(line)
	elsewhere := func(other unit.Length) bool { return unit.Abs(other-line) > unit.Millimetre }
	of := &p.v.Sitting
	of.Marks = slices.DeleteFunc(slices.Clone(of.Marks), func(m app.Marked) bool { return elsewhere(m.Line) })
	of.Bands = slices.DeleteFunc(slices.Clone(of.Bands), func(b app.Band) bool { return elsewhere(b.Line) })
	p.sitting()
	d := scenario.DisplayOf(unit.LengthKind, p.s.Units)
	p.want(ofBall, Text{Words: "line at " + phrase.Brief(d.Format(float64(line))), Size: size, Ink: Soft},
		Text{At: Point{8, 6 + size}, Anchor: FromStart}, Text{At: Point{p.v.Width - 8, 6 + size}, Anchor: ToEnd})
	p.grant()
}

// stripGate draws the posts between which the ball's centre passes clean, if the line is
// that of the gate.
func (p *pen) stripGate(line unit.Length) {
	half := p.s.Gap/2 - p.s.GearBall().Radius
	if p.s.Gate == 0 || unit.Abs(p.s.Gate-line) > unit.Millimetre || half <= 0 {
		return
	}
	size := p.typeSize()
	for _, post := range []struct {
		side   float64
		letter string
	}{{-1, "L"}, {1, "R"}} {
		side := post.side
		at := p.onLine(unit.Length(side)*half, line)
		p.line(Stroke{Line, 2.4, Solid}, Point{at.X, at.Y - 22}, Point{at.X, at.Y + 22})
		for x := at.X + side*8; x > 0 && x < p.v.Width; x += side * 8 { // hatching, as of the blockers
			p.line(Stroke{Grid, 1, Solid}, Point{x - 4, at.Y + 14}, Point{x + 4, at.Y - 14})
		}
		p.want(ofBlocker, Text{Words: post.letter, Size: size * 1.2, Bold: true, Ink: Line}, Text{At: Point{at.X, at.Y - 27}, Anchor: Middle}).firm = true
	}
}
