package sheet

import (
	"math"

	"pivotbench/core/scenario"
	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// Density draws how likely each pivot length is: the curve, its middle, and
// bars under it for the 50 and the 90 % interval.
func Density(s *scenario.Scenario, post *sitting.Posterior, cue int, width, height float64) Sheet {
	p := pen{s: s, v: View{Width: width, Height: height}, sheet: Sheet{Width: width, Height: height}}
	lengths, likely := post.Density(cue)
	first, last := lengths[0], lengths[len(lengths)-1]
	const left, right, top, foot = 12, 12, 14, 46
	x := func(l float64) float64 {
		return left + (width-left-right)*math.Log(l/first)/math.Log(last/first)
	}
	y := func(h float64) float64 { return height - foot - (height-top-foot)*h }
	p.lengthScale(first, last, x, y(0))
	points := make([]Point, len(lengths))
	for i, l := range lengths {
		points[i] = Point{x(l), y(likely[i])}
	}
	p.line(Stroke{Way, 2, Solid}, points...)
	if post.Strokes(cue) == 0 {
		return p.sheet
	}
	est := post.Pivot(cue)
	mid := x(est.Median)
	p.line(Stroke{Off, 1.4, Dashed}, Point{mid, top}, Point{mid, y(0)})
	for _, bar := range []struct {
		of    stat.Interval[float64]
		width float64
	}{{est.Interval, 3}, {est.Half, 7}} {
		p.line(Stroke{Off, bar.width, Solid}, Point{x(bar.of.From), y(0) + 8}, Point{x(bar.of.To), y(0) + 8})
	}
	return p.sheet
}

// lengthScale draws a logarithmic scale of lengths at a height.
func (p *pen) lengthScale(first, last float64, x func(float64) float64, level float64) {
	p.line(Stroke{Soft, 1, Solid}, Point{x(first), level}, Point{x(last), level})
	marks := []float64{6, 8, 10, 13, 16, 20, 25, 30, 40, 50}
	u := float64(unit.Inch)
	if p.s.Units == "cm" {
		marks, u = []float64{15, 20, 25, 32, 40, 50, 65, 80, 100, 130}, float64(unit.Centimetre)
	}
	for _, m := range marks {
		if l := m * u; l > first && l < last {
			p.line(Stroke{Soft, 1, Solid}, Point{x(l), level}, Point{x(l), level + 5})
			p.text(Text{At: Point{x(l), level + 30}, Words: unit.Round(l, unit.LengthKind, p.s.Units, 0), Size: 12, Ink: Soft, Anchor: Middle})
		}
	}
	p.text(Text{At: Point{x(last), level + 44}, Words: "natural pivot length, " + p.s.Units, Size: 12, Ink: Soft, Anchor: ToEnd})
}
