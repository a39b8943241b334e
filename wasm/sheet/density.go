package sheet

import (
	"math"

	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// Density draws how likely each pivot length is, as a share of the most likely one: the
// curve, its middle, and bars under it for the 50 and the 90 % interval. The scale is
// logarithmic. It shows the lengths that are at all likely. est is nil before the first
// stroke.
func Density(s *scenario.Scenario, all, height []float64, est *stat.Summary[float64], width, high float64) Sheet {
	p := pen{s: s, v: View{Width: width, Height: high}, sheet: Sheet{Width: width, Height: high}}
	lengths, likely := inView(all, height)
	first, last := lengths[0], lengths[len(lengths)-1]
	const left, right, top, foot = 14, 14, 14, 58
	x := func(l float64) float64 {
		return left + (width-left-right)*math.Log(l/first)/math.Log(last/first)
	}
	y := func(h float64) float64 { return high - foot - (high-top-foot)*h }
	p.lengthScale(first, last, x, y(0))
	points := make([]Point, len(lengths))
	for i, l := range lengths {
		points[i] = Point{x(l), y(likely[i])}
	}
	p.line(Stroke{Way, 2, Solid}, points...)
	if est == nil {
		return p.sheet
	}
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

// inView returns the part of a density that is worth showing: where it is not almost
// zero, and a little on either side.
func inView(lengths, likely []float64) ([]float64, []float64) {
	const least, beside = 0.01, 1.06
	first, last := 0, len(lengths)-1
	for first < last && likely[first] < least {
		first++
	}
	for last > first && likely[last] < least {
		last--
	}
	from, to := lengths[first]/beside, lengths[last]*beside
	for first > 0 && lengths[first-1] >= from {
		first--
	}
	for last < len(lengths)-1 && lengths[last+1] <= to {
		last++
	}
	return lengths[first : last+1], likely[first : last+1]
}

// lengthScale draws a logarithmic scale of lengths at a height, with as many whole
// numbers as there is room for.
func (p *pen) lengthScale(first, last float64, x func(float64) float64, level float64) {
	p.line(Stroke{Soft, 1, Solid}, Point{x(first), level}, Point{x(last), level})
	u, _ := unit.LengthKind.Find(p.s.Units)
	for _, every := range []float64{20, 10, 5, 2, 1} { // coarse marks have the first claim on the room
		for m := every * math.Ceil(first/u.SI/every); m*u.SI <= last; m += every {
			at := x(m * u.SI)
			t := Text{At: Point{at, level + 30}, Words: unit.Round(m*u.SI, unit.LengthKind, p.s.Units, 0), Size: 12, Ink: Soft, Anchor: Middle}
			roomy := t
			roomy.Words += "00" // so that the numbers stand well apart
			if p.free(&roomy) {
				p.line(Stroke{Soft, 1, Solid}, Point{at, level}, Point{at, level + 5})
				p.text(t)
			}
		}
	}
	p.text(Text{At: Point{x(last), p.v.Height - 6}, Words: "pivot length, " + p.s.Units, Size: 12, Ink: Soft, Anchor: ToEnd})
}
