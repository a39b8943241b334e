package sheet

import (
	"strconv"
	"unicode/utf8"

	"pivotbench/core/gear"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
)

// titleBlock says what the sheet shows: cue, speed, table, stretch.
func (p *pen) titleBlock() {
	size := p.typeSize()
	row, wide := size*1.75, min(size*15.5, p.v.Width/2-44)
	left, top := p.v.Width-wide-8, p.v.Height-8-3*row
	if p.v.Left {
		left = 8
	}
	frame := Stroke{Soft, 1, Solid}
	p.sheet.Items = append(p.sheet.Items, Path{Stroke: frame, Fill: Ground, Points: []Point{
		{left, top}, {left + wide, top}, {left + wide, top + 3*row}, {left, top + 3*row}, {left, top},
	}})
	p.taken = append(p.taken, box{left, top, left + wide, top + 3*row})
	for i := 1.0; i < 3; i++ {
		p.line(frame, Point{left, top + i*row}, Point{left + wide, top + i*row})
	}
	mid := left + wide*0.54
	p.line(frame, Point{mid, top + row}, Point{mid, top + 3*row})

	name := p.s.Name
	if name == "" {
		name = tableLabel(p.s)
	}
	cell := func(x float64, r int, words string, bold bool, ink Ink, room float64) {
		p.text(Text{At: Point{x + 6, top + float64(r)*row - row*0.32}, Words: fitted(words, size, room-8), Size: size, Bold: bold, Ink: ink, Anchor: FromStart})
	}
	stretch := "to scale"
	ink := Soft
	if p.v.Stretch > 1 {
		stretch, ink = "sideways ×"+strconv.Itoa(p.v.Stretch), Off
	}
	narrow, rest := mid-left, left+wide-mid
	cell(left, 1, name, true, Line, wide)
	cell(left, 2, "pivot "+short(p.shown("pivot")), false, Soft, narrow)
	cell(mid, 2, short(scenario.DisplayOf(unit.SpeedKind, p.s.Units).Format(float64(p.s.Speed))), false, Soft, rest)
	cell(left, 3, stretch, p.v.Stretch > 1, ink, narrow)
	cell(mid, 3, "elev "+short(p.shown("elev")), false, Soft, rest)
}

func tableLabel(s *scenario.Scenario) string {
	named, _ := gear.Find(gear.Tables, s.Table)
	return named.Label + " table"
}

// fitted shortens words to the room there is.
func fitted(words string, size, room float64) string {
	t := Text{Words: words, Size: size}
	for t.width() > room && utf8.RuneCountInString(t.Words) > 2 {
		runes := []rune(t.Words)
		t.Words = string(runes[:len(runes)-2]) + "…"
	}
	return t.Words
}
