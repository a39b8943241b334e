package sheet

import (
	"math"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

// board writes the verdict and the most important readings, large enough for the back row
// of a class.
func (p *pen) board() {
	size := min(p.v.Width, p.v.Height) / 18
	said := phrase.Verdict(p.s, &p.res.Reading)
	ink := Off // for a touch, a miss or no shot at all
	if v := p.res.Reading.Verdict; p.res.Launched == nil && (v.Err() != nil || v.Value == shot.Clean) {
		ink = Way
	}
	head := Text{At: Point{24, 16 + size}, Words: said.Head, Size: size, Bold: true, Ink: ink, Anchor: FromStart}
	head.Size *= min(1, (p.v.Width-48)/head.width()) // a reason is longer than a verdict
	p.text(head)
	r := &p.res.Reading
	y := 16 + size*2.3
	rows := []struct {
		name  string
		value float64
		err   error
		kind  unit.Kind
		ink   Ink
	}{
		{"cue angle", float64(r.Heading.Value), r.Heading.Err(), unit.AngleKind, Stick},
		{"squirt", float64(r.Squirt.Value), r.Squirt.Err(), unit.AngleKind, Off},
		{"swerve", float64(r.Swerve.Value), r.Swerve.Err(), unit.AngleKind, Way},
		{"natural pivot", float64(r.PivotNatural.Value), r.PivotNatural.Err(), unit.LengthKind, Line},
	}
	column := 0.0 // where the values begin, beside the longest name
	name := func(i int) Text {
		return Text{At: Point{24, y}, Words: rows[i].name, Size: size * 0.55, Ink: Soft, Anchor: FromStart}
	}
	for i := range rows {
		at := name(i)
		column = max(column, at.At.X+at.width()+size*0.4)
	}
	for i, row := range rows {
		if row.err != nil {
			continue
		}
		value := scenario.DisplayOf(row.kind, p.s.Units).Format(math.Abs(row.value))
		p.text(name(i))
		p.text(Text{At: Point{column, y}, Words: value, Size: size * 0.8, Bold: true, Ink: row.ink, Anchor: FromStart})
		y += size * 1.15
	}
}
