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
	Place int // of the cue among the compared ones, for its style
	Known cues.EndMass
}

// Squirts draws the squirt of cues against the offset, as far out as a tip grips, each
// with its 90 % band. The legend under it adds to the height.
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
		high = max(high, 1.05*float64(b[steps].To))
	}
	const left, right, top, foot = 44, 14, 26, 40
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
		st := CueStroke(c.Place, 2)
		p.line(Stroke{st.Ink, 0.8, Dotted}, along(i, least)...)
		p.line(Stroke{st.Ink, 0.8, Dotted}, along(i, most)...)
		p.line(st, along(i, func(b stat.Estimate[unit.Angle]) unit.Angle { return b.Median })...)
	}
	names := legend{8, width - 16, height + 12}
	for _, c := range curves {
		at := names.row(&p, c.Name)
		y := (at.top + at.bottom) / 2
		p.line(CueStroke(c.Place, 2), Point{at.left, y}, Point{at.right, y})
	}
	p.sheet.Height = names.foot()
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
	p.text(Text{At: Point{x(0) - 36, 14}, Words: "squirt, with 90 % band", Size: 12, Ink: Line, Anchor: FromStart})
	p.text(Text{At: Point{x(out), y(0) + 33}, Words: "offset, in ball radii", Size: 12, Ink: Soft, Anchor: ToEnd})
}
