package sheet

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"pivotbench/core/gear"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

// titleBlock writes what the sheet shows: cue, speed, elevation, stretch. On a narrow
// sheet it is narrower. On a low sheet, or where the grip hand or the page's buttons
// would be under it, it leaves out what the controls beside the sheet say, and at the
// least it says how the sheet is stretched.
func (p *pen) titleBlock() {
	brief := func(key string) string { return phrase.Brief(p.shown(key)) }
	name := p.s.Name
	if name == "" {
		named, _ := gear.Find(gear.Tables, p.s.Table)
		name = named.Label + " table"
	}
	stretch, ink := "to scale", Soft
	if p.v.Stretch > 1 {
		stretch, ink = "sideways ×"+strconv.Itoa(p.v.Stretch), Off
	}
	size := p.typeSize()
	title := Text{Words: name, Bold: true, Ink: Line}
	pivot := Text{Words: "pivot length " + brief("pivot"), Ink: Soft}
	speed := Text{Words: phrase.Brief(scenario.DisplayOf(unit.SpeedKind, p.s.Units).Format(float64(p.s.Speed))), Ink: Soft}
	elev := Text{Words: "elev " + brief("elev"), Ink: Soft}
	scale := Text{Words: stretch, Bold: ink == Off, Ink: ink}

	wide := p.titleWide()
	for _, t := range []*Text{&title, &pivot, &speed, &elev, &scale} {
		t.Size = size
	}
	if title.framed() > wide-cellRoom {
		title.Words = strings.TrimSuffix(title.Words, " table")
	}
	if scale.framed() > wide-cellRoom {
		scale.Words = strings.TrimPrefix(scale.Words, "sideways ")
	}
	rows := [][]Text{{title}, {pivot, speed}, {scale, elev}}
	narrow := max(pivot.framed(), scale.framed())+max(speed.framed(), elev.framed()) > wide-2*cellRoom
	if narrow {
		speed.Words += ", " + brief("elev")
		rows = [][]Text{{title}, {pivot}, {speed}, {scale}}
		short := scale
		short.Words = strings.TrimPrefix(scale.Words, "sideways ")
		if short.framed()+speed.framed() <= wide-2*cellRoom {
			rows = [][]Text{{title}, {pivot}, {short, speed}}
		}
	}
	low := narrow && p.v.Height < 16*p.titleRow()
	if low || p.inTheWay(p.titleFrame(wide, len(rows))) {
		rows = [][]Text{{title}, {scale}}
		if !low {
			wide = min(wide, max(title.framed(), scale.framed())+cellRoom)
		}
	}
	if p.inTheWay(p.titleFrame(wide, len(rows))) {
		rows = [][]Text{{scale}}
		wide = min(wide, scale.framed()+cellRoom)
	}
	p.titleRows(p.titleFrame(wide, len(rows)), rows)
}

// inTheWay reports whether the page's buttons or the grip hand are within a part of the
// sheet.
func (p *pen) inTheWay(part box) bool {
	return !p.v.Board && part.meets(p.v.corner()) || p.gripIn(part)
}

// gripIn reports whether the grip hand, with its handle, is within a part of the sheet.
func (p *pen) gripIn(part box) bool {
	if p.res.Reading.Heading.Err() != nil {
		return false
	}
	const reach = 20
	_, _, grip := p.hands()
	return part.meets(box{grip.X - reach, grip.Y - reach, grip.X + reach, grip.Y + reach})
}

// titleWide returns the width of the block.
func (p *pen) titleWide() float64 { return min(p.typeSize()*15.5, p.v.Width/2-44) }

// titleRow returns the height of one of its rows.
func (p *pen) titleRow() float64 { return p.typeSize() * 1.75 }

// titleFrame returns the frame of the block, in the corner on the side of the writing
// hand.
func (p *pen) titleFrame(wide float64, rows int) box {
	left := p.v.Width - wide - 8
	if p.v.Left {
		left = 8
	}
	foot := p.v.Height - 8
	return box{left, foot - float64(rows)*p.titleRow(), left + wide, foot}
}

// The distance of a text from the line before it, and the room that it needs in its cell
// beyond its width.
const cellLead, cellRoom = 6, 9

// titleRows draws the block's frame and its rows of one or two cells. The second cell is
// as wide as its texts need.
func (p *pen) titleRows(f box, rows [][]Text) {
	high := p.titleRow()
	left, right, mid := f.left, f.right, f.right
	for _, row := range rows {
		if len(row) == 2 {
			mid = min(mid, right-row[1].framed()-cellRoom)
		}
	}
	frame := Stroke{Soft, p.heavy(), Solid}
	p.sheet.Items = append(p.sheet.Items, Path{Stroke: frame, Fill: Ground, Points: []Point{
		{left, f.top}, {right, f.top}, {right, f.bottom}, {left, f.bottom}, {left, f.top},
	}})
	p.taken = append(p.taken, f)
	for i, row := range rows {
		y := f.top + float64(i)*high
		if i > 0 {
			p.line(Stroke{Soft, 1, Solid}, Point{left, y}, Point{right, y})
		}
		ends := []float64{left, right}
		if len(row) == 2 {
			ends = []float64{left, mid, right}
			p.line(Stroke{Soft, 1, Solid}, Point{mid, y}, Point{mid, y + high})
		}
		for j, t := range row {
			t.At, t.Anchor = Point{ends[j] + cellLead, y + high*0.68}, FromStart
			p.text(fitted(t, ends[j+1]-ends[j]-cellRoom))
		}
	}
}

// fitted shortens a text to the room there is.
func fitted(t Text, room float64) Text {
	const slack = 0.01 // the width of a cell made to fit has a rounding error
	for t.framed() > room+slack && utf8.RuneCountInString(t.Words) > 2 {
		runes := []rune(t.Words)
		t.Words = string(runes[:len(runes)-2]) + "…"
	}
	return t
}
