package sheet

import (
	"math"
	"slices"

	"pivotbench/core/cues"
	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

// A SquirtCurve is a cue on the chart of squirt against offset.
type SquirtCurve struct {
	Name  string
	Dash  Dash
	Known cues.EndMass
}

// Squirts draws the squirt of cues against the offset, as far out as a tip grips, each
// with its 90 % band.
func Squirts(s *scenario.Scenario, curves []SquirtCurve, width, height float64) Sheet {
	const out, steps = 0.5, 25
	p := pen{s: s, v: View{Width: width, Height: height}, sheet: Sheet{Width: width, Height: height}}
	bands := make([][]stat.Estimate[unit.Angle], len(curves))
	for i, c := range curves {
		for j := range steps + 1 {
			bands[i] = append(bands[i], c.Known.Squirt(s.GearBall(), out*float64(j)/steps))
		}
	}
	high := float64(unit.Degree) / 10
	for _, b := range bands {
		high = max(high, float64(b[steps].To))
	}
	const left, right, top, foot = 44, 84, 26, 40
	x := func(offset float64) float64 { return left + (width-left-right)*offset/out }
	y := func(a float64) float64 { return top + (height-top-foot)*(1-a/high) }
	along := func(i int, pick func(stat.Estimate[unit.Angle]) unit.Angle) []Point {
		points := make([]Point, steps+1)
		for j, b := range bands[i] {
			points[j] = Point{x(out * float64(j) / steps), y(float64(pick(b)))}
		}
		return points
	}
	least := func(b stat.Estimate[unit.Angle]) unit.Angle { return b.From }
	most := func(b stat.Estimate[unit.Angle]) unit.Angle { return b.To }
	for i := range curves {
		round := along(i, least)
		back := along(i, most)
		slices.Reverse(back)
		p.sheet.Items = append(p.sheet.Items, Path{Points: append(round, back...), Stroke: Stroke{Grid, 1, Solid}, Fill: Grid})
	}
	p.squirtAxes(out, high, x, y)
	for i, c := range curves {
		p.line(Stroke{Soft, 0.8, Dotted}, along(i, least)...)
		p.line(Stroke{Soft, 0.8, Dotted}, along(i, most)...)
		points := along(i, func(b stat.Estimate[unit.Angle]) unit.Angle { return b.Median })
		p.line(Stroke{Off, 2, c.Dash}, points...)
		end := points[steps]
		p.place(fitted(Text{Words: c.Name, Size: 12, Ink: Off}, right-8), Text{At: Point{end.X + 5, end.Y + 4}, Anchor: FromStart})
	}
	return p.sheet
}

// squirtAxes draws the frame and the scales, over the bands.
func (p *pen) squirtAxes(out, high float64, x, y func(float64) float64) {
	frame, faint := Stroke{Soft, 1, Solid}, Stroke{Soft, 0.4, Dotted}
	degree := float64(unit.Degree)
	for a, step := 0.0, niceStep(high/degree/4)*degree; a <= high; a += step {
		p.line(faint, Point{x(0), y(a)}, Point{x(out), y(a)})
		p.text(Text{At: Point{x(0) - 6, y(a) + 4}, Words: phrase.Brief(scenario.DisplayOf(unit.AngleKind, "").Format(a)), Size: 12, Ink: Soft, Anchor: ToEnd})
	}
	for i := range int(math.Floor(out*10+1e-9)) + 1 {
		at := float64(i) / 10
		p.line(frame, Point{x(at), y(0)}, Point{x(at), y(0) + 4})
		p.text(Text{At: Point{x(at), y(0) + 17}, Words: unit.Round(at, unit.Ratio, "", 1), Size: 12, Ink: Soft, Anchor: Middle})
	}
	p.line(frame, Point{x(0), y(high)}, Point{x(0), y(0)}, Point{x(out), y(0)})
	p.text(Text{At: Point{x(0) - 36, 14}, Words: "squirt, 9 of 10 within the band", Size: 12, Ink: Line, Anchor: FromStart})
	p.text(Text{At: Point{x(out), y(0) + 33}, Words: "offset, in ball radii", Size: 12, Ink: Soft, Anchor: ToEnd})
}

// DashSample returns a short piece of a compared cue's line, for a table.
func DashSample(i int) Sheet {
	const width, height = 44, 10
	return Sheet{Width: width, Height: height, Items: []Item{
		Path{Points: []Point{{1, height / 2}, {width - 1, height / 2}}, Stroke: Stroke{Way, 2, cueDashes[i]}},
	}}
}
