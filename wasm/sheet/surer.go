package sheet

import (
	"strconv"

	"pivotbench/core/scenario"
)

// A SureCurve is the probability, after some numbers of strokes, that the measured cue
// squirts less than another.
type SureCurve struct {
	Style   int    // the other cue's, for CueStroke
	Name    string // of the other cue
	Strokes []int  // growing
	Less    []float64
}

// Surer draws how sure it has become, stroke by stroke, which of some cues squirts less
// than the measured one. Each curve starts in the middle, where nothing is known.
func Surer(s *scenario.Scenario, curves []SureCurve, width, height float64) Sheet {
	p := pen{s: s, v: View{Width: width, Height: height}, sheet: Sheet{Width: width, Height: height}}
	most := 1
	for _, c := range curves {
		most = max(most, c.Strokes[len(c.Strokes)-1])
	}
	const left, right, top, foot = 52, 104, 26, 22
	x := func(strokes int) float64 { return left + (width-left-right)*float64(strokes)/float64(most) }
	y := func(less float64) float64 { return top + (height-top-foot)*(1-less) }
	for _, share := range []float64{0, 0.5, 1} {
		p.line(Stroke{Soft, 1, Dotted}, Point{left, y(share)}, Point{x(most), y(share)})
		p.text(Text{At: Point{left - 6, y(share) + 4}, Words: strconv.Itoa(int(100*share)) + " %", Size: 12, Ink: Soft, Anchor: ToEnd})
	}
	p.text(Text{At: Point{8, 14}, Words: "how sure that this cue squirts less", Size: 12, Ink: Line, Anchor: FromStart})
	p.text(Text{At: Point{x(most), height - 6}, Words: "strokes", Size: 12, Ink: Soft, Anchor: ToEnd})
	for _, c := range curves {
		points := []Point{{left, y(0.5)}}
		for i, less := range c.Less {
			points = append(points, Point{x(c.Strokes[i]), y(less)})
		}
		st, end := CueStroke(c.Style, 2), points[len(points)-1]
		p.line(st, points...)
		p.mark(c.Style, end, 1.8)
		p.place(fitted(Text{Words: "than " + c.Name, Size: 12, Ink: st.Ink}, right-14), Text{At: Point{end.X + 10, end.Y + 4}, Anchor: FromStart})
	}
	return p.sheet
}
