package sheet

import (
	"math"

	"pivotbench/core/hop"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// StrokeHandle is the handle of the stroke on the hop map.
const StrokeHandle HandleID = "stroke"

// A HopMap is the map of strokes that clear, speed against elevation, with its axes.
type HopMap struct {
	Sheet
	s        *scenario.Scenario
	fastest  unit.Speed
	plot     box
	steepest unit.Angle
}

// NewHopMap draws the columns of a map whose speeds go up to fastest. Vertical lines show
// where strokes clear: solid if the ball lands before the target, dotted if it may not,
// and dashed if they clear or touch depending on the contact times of tip and bed. It
// also draws a line at the hardest speed that people reach, and the present stroke.
func NewHopMap(s *scenario.Scenario, columns []hop.Column, fastest, hardest unit.Speed, width, height float64) *HopMap {
	m := &HopMap{s: s, fastest: fastest, steepest: hop.Steep, plot: box{44, 26, width - 14, height - 40}}
	p := pen{s: s, v: View{Width: width, Height: height}, sheet: Sheet{Width: width, Height: height}}
	m.axes(&p)
	m.regions(&p, columns)
	if hardest < fastest {
		y := m.At(0, hardest).Y
		p.line(Stroke{Off, 1.4, DashDot}, Point{m.plot.left, y}, Point{m.plot.right, y})
		at := Point{m.plot.left + 6, y - 6}
		if at.Y < m.plot.top+12 {
			at.Y = y + 15
		}
		p.label(Text{At: at, Words: "more than people do", Size: 12, Ink: Off, Anchor: FromStart})
	}
	at := m.At(s.Elev, s.Speed)
	p.line(Stroke{Stick, 1, Dashed}, Point{m.plot.left, at.Y}, at, Point{at.X, m.plot.bottom})
	p.circle(at, 7, Stroke{Stick, 2.4, Solid}, Ground)
	p.circle(at, 2, Stroke{Stick, 1, Solid}, Stick)
	p.sheet.Handles = []Handle{{StrokeHandle, at, "this stroke", Anywhere}}
	m.Sheet = p.sheet
	return m
}

// At returns the position of a stroke on the map.
func (m *HopMap) At(elevation unit.Angle, speed unit.Speed) Point {
	return Point{
		m.plot.left + (m.plot.right-m.plot.left)*float64(min(elevation/m.steepest, 1)),
		m.plot.bottom - (m.plot.bottom-m.plot.top)*float64(min(speed/m.fastest, 1)),
	}
}

// Strike returns the stroke at a point of the map, snapped to round values.
func (m *HopMap) Strike(at Point) []app.Setting {
	elevation := float64(m.steepest) * (at.X - m.plot.left) / (m.plot.right - m.plot.left)
	speed := float64(m.fastest) * (m.plot.bottom - at.Y) / (m.plot.bottom - m.plot.top)
	key := "speed"
	if m.s.ByStroke {
		key = "stroke"
	}
	set := func(name string, v, steps float64) app.Setting {
		k := scenario.Find(name)
		return app.Setting{Key: name, Text: k.Written(k.Snapped(v, m.s.Units, steps), m.s.Units)}
	}
	coarse := 5.0 // steps at once, since a finger on the map is no more precise
	if m.s.Units == "cm" {
		coarse = 2
	}
	return []app.Setting{set("elev", elevation, 1), set(key, speed, coarse)}
}

// axes draws the frame, the scales and their labels.
func (m *HopMap) axes(p *pen) {
	frame, faint := Stroke{Soft, 1, Solid}, Stroke{Grid, 1, Solid}
	d := scenario.DisplayOf(unit.SpeedKind, m.s.Units)
	u, _ := unit.SpeedKind.Find(d.Unit)
	step := unit.Speed(niceStep(float64(m.fastest)/u.SI/6) * u.SI)
	for v := unit.Speed(0); v <= m.fastest*1.0001; v += step {
		at := m.At(0, v)
		p.line(faint, at, Point{m.plot.right, at.Y})
		p.text(Text{At: Point{at.X - 6, at.Y + 4}, Words: unit.Round(float64(v), unit.SpeedKind, d.Unit, 0), Size: 12, Ink: Soft, Anchor: ToEnd})
	}
	for a := unit.Angle(0); a <= m.steepest; a += 20 * unit.Degree {
		at := m.At(a, 0)
		p.line(faint, at, Point{at.X, m.plot.top})
		p.line(frame, at, Point{at.X, at.Y + 4})
		p.text(Text{At: Point{at.X, at.Y + 17}, Words: unit.Round(float64(a), unit.AngleKind, "deg", 0) + "°", Size: 12, Ink: Soft, Anchor: Middle})
	}
	b := m.plot
	p.line(frame, Point{b.left, b.top}, Point{b.left, b.bottom}, Point{b.right, b.bottom})
	whose := "ball speed, "
	if m.s.ByStroke {
		whose = "cue speed, "
	}
	p.text(Text{At: Point{8, 14}, Words: whose + d.Unit, Size: 12, Ink: Line, Anchor: FromStart})
	p.text(Text{At: Point{b.right, b.bottom + 33}, Words: "elevation", Size: 12, Ink: Soft, Anchor: ToEnd})
}

// hopLooks are the line styles of the classes that clear, or may.
var hopLooks = map[hop.Class]Stroke{hop.Lands: {Way, 1.6, Solid}, hop.Clears: {Way, 1.4, Dotted}, hop.Unsure: {Off, 1.2, Dashed}}

// regions draws the columns, the outlines of the regions that they form, and the name of
// each region.
func (m *HopMap) regions(p *pen, columns []hop.Column) {
	none := true
	for i, c := range columns {
		for _, r := range c.Runs {
			st, ok := hopLooks[r.Class]
			none = none && !ok
			if ok {
				p.line(st, m.At(c.Elevation, r.From), m.At(c.Elevation, r.To))
			}
		}
		for class := hop.Unsure; class <= hop.Lands && i > 0; class++ {
			m.outline(p, columns[i-1], c, class)
		}
	}
	if none {
		p.label(Text{At: Point{(m.plot.left + m.plot.right) / 2, m.plot.top + 30}, Words: "nothing here clears", Size: 12, Bold: true, Ink: Line, Anchor: Middle})
	}
	m.name(p, columns, hop.Lands, "down before "+phrase.Brief(scenario.Find("dist").Shown(m.s)))
	m.name(p, columns, hop.Clears, "clears")
	m.name(p, columns, hop.Unsure, "may touch")
}

// outline draws the outline of a class between two neighbouring columns. Overlapping runs
// of both belong to one region, and their ends are joined. Where a region begins, ends or
// divides, its outline is vertical.
func (m *HopMap) outline(p *pen, left, right hop.Column, class hop.Class) {
	edge := func(a unit.Angle, v unit.Speed, b unit.Angle, w unit.Speed) {
		if min(v, w) < m.fastest {
			p.line(Stroke{hopLooks[class].Ink, 2, Solid}, m.At(a, v), m.At(b, w))
		}
	}
	sides := func(here, there hop.Column, joins bool) {
		for _, r := range here.Runs {
			if r.Class != class {
				continue
			}
			beside := overlapping(r, there.Runs)
			if len(beside) == 0 {
				edge(here.Elevation, r.From, here.Elevation, r.To)
				continue
			}
			for i := range beside[1:] {
				edge(there.Elevation, beside[i].To, there.Elevation, beside[i+1].From)
			}
			low, high := beside[0], beside[len(beside)-1]
			if joins && overlapping(low, here.Runs)[0] == r {
				edge(here.Elevation, r.From, there.Elevation, low.From)
			}
			if back := overlapping(high, here.Runs); joins && back[len(back)-1] == r {
				edge(here.Elevation, r.To, there.Elevation, high.To)
			}
		}
	}
	sides(left, right, true)
	sides(right, left, false)
}

// overlapping returns the runs of a column that overlap a run of another in speed and
// have the same class.
func overlapping(r hop.Run, runs []hop.Run) []hop.Run {
	var out []hop.Run
	for _, o := range runs {
		if o.Class == r.Class && o.From < r.To && r.From < o.To {
			out = append(out, o)
		}
	}
	return out
}

// name writes the meaning of a class where there is most room for it.
func (m *HopMap) name(p *pen, columns []hop.Column, class hop.Class, words string) {
	t := Text{Words: words, Size: 12, Bold: true, Ink: Line, Anchor: Middle}
	room, half := unit.Speed(0), t.width()/2+6
	for _, c := range columns {
		for _, r := range c.Runs {
			at := m.At(c.Elevation, (r.From+r.To)/2)
			if r.Class == class && r.To-r.From > room && at.X-half > m.plot.left && at.X+half < m.plot.right {
				room, t.At = r.To-r.From, Point{at.X, at.Y + 4}
			}
		}
	}
	if under := m.under(columns, class, t.At.X, half); m.At(0, 0).Y-m.At(0, room).Y < 48 && under < m.plot.bottom {
		t.At.Y = under // the region is too narrow for it
	}
	if room > 0 {
		p.label(t)
	}
}

// under returns the baseline of a text below the region of a class.
func (m *HopMap) under(columns []hop.Column, class hop.Class, x, half float64) float64 {
	y := 0.0
	for _, c := range columns {
		for _, r := range c.Runs {
			if low := m.At(c.Elevation, r.From); r.Class == class && math.Abs(low.X-x) < half {
				y = max(y, low.Y+16)
			}
		}
	}
	return y
}

// label writes a text on a background of the paper's colour, if there is room.
func (p *pen) label(t Text) {
	if !p.free(&t) {
		return
	}
	p.sheet.Items = append(p.sheet.Items, t.paper())
	p.text(t)
}
