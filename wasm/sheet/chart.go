package sheet

import (
	"math"

	"pivotbench/core/card"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

// chartDashes distinguish the curves of a chart without colour.
var chartDashes = []Dash{Solid, Dashed, DashDot, Dotted}

// Chart draws curves of effective squirt against distance, each labelled with its speed
// at its end.
func Chart(s *scenario.Scenario, curves []card.Curve, width, height float64) Sheet {
	p := pen{s: s, v: View{Width: width, Height: height}, sheet: Sheet{Width: width, Height: height}}
	var far unit.Length
	low, high := 0.0, float64(unit.Degree)/10
	for _, c := range curves {
		for _, pt := range c.Points {
			far = max(far, pt.Dist)
			low, high = min(low, float64(pt.Net)), max(high, float64(pt.Net))
		}
	}
	if far == 0 {
		return p.sheet
	}
	clear := (high - low) / 16 // between a curve and the frame
	if high += clear; low < 0 {
		low -= clear
	}
	const left, right, top, foot = 44, 66, 26, 40
	x := func(d unit.Length) float64 { return left + (width-left-right)*float64(d/far) }
	y := func(a float64) float64 { return top + (height-top-foot)*(high-a)/(high-low) }
	p.axes(far, low, high, x, y)
	for i, c := range curves {
		points := make([]Point, len(c.Points))
		for j, pt := range c.Points {
			points[j] = Point{x(pt.Dist), y(float64(pt.Net))}
		}
		if len(points) == 0 {
			continue
		}
		p.line(Stroke{Way, 2, chartDashes[i%len(chartDashes)]}, points...)
		end := points[len(points)-1]
		speed := phrase.Brief(scenario.DisplayOf(unit.SpeedKind, s.Units).Format(float64(c.Speed)))
		p.place(Text{Words: speed, Size: 12, Ink: Way}, Text{At: Point{end.X + 5, end.Y + 4}, Anchor: FromStart})
	}
	return p.sheet
}

// axes draws a chart's frame, its scales and their labels.
func (p *pen) axes(far unit.Length, low, high float64, x func(unit.Length) float64, y func(float64) float64) {
	frame, faint := Stroke{Soft, 1, Solid}, Stroke{Grid, 1, Solid}
	step := niceStep((high-low)/float64(unit.Degree)/4) * float64(unit.Degree)
	for a := step * math.Ceil(low/step); a <= high; a += step {
		p.line(faint, Point{x(0), y(a)}, Point{x(far), y(a)})
		p.text(Text{At: Point{x(0) - 6, y(a) + 4}, Words: phrase.Brief(scenario.DisplayOf(unit.AngleKind, "").Format(a)), Size: 12, Ink: Soft, Anchor: ToEnd})
	}
	u, _ := unit.LengthKind.Find(p.s.Units)
	for d, step := unit.Length(0), unit.Length(niceStep(float64(far)/u.SI/5)*u.SI); d <= far*1.0001; d += step {
		p.line(frame, Point{x(d), y(low)}, Point{x(d), y(low) + 4})
		p.text(Text{At: Point{x(d), y(low) + 17}, Words: unit.Round(float64(d), unit.LengthKind, p.s.Units, 0), Size: 12, Ink: Soft, Anchor: Middle})
	}
	p.line(frame, Point{x(0), y(high)}, Point{x(0), y(low)}, Point{x(far), y(low)})
	p.text(Text{At: Point{x(0) - 36, 14}, Words: "squirt minus swerve", Size: 12, Ink: Line, Anchor: FromStart})
	p.text(Text{At: Point{x(far), y(low) + 33}, Words: "distance, " + p.s.Units, Size: 12, Ink: Soft, Anchor: ToEnd})
}

// niceStep returns the smallest step of 1, 2 or 5 times a power of ten that is at least
// so large.
func niceStep(least float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(least)))
	for _, n := range []float64{1, 2, 5} {
		if n*power >= least {
			return n * power
		}
	}
	return 10 * power
}
