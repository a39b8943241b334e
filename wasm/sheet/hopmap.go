package sheet

import (
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

// NewHopMap draws the columns of a map whose speeds go up to fastest: the region of the
// strokes that clear, hatched where the ball lands before the target, and the strokes that
// clear or touch depending on the contact times of tip and bed. It also draws a line at
// the hardest speed that people reach, and the current stroke. The legend under it adds to
// the height.
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
		p.label(Text{At: at, Words: "beyond most players", Size: 12, Ink: Off, Anchor: FromStart})
	}
	at := m.At(s.Elev, s.Speed)
	p.line(Stroke{Stick, 1, Dashed}, Point{m.plot.left, at.Y}, at, Point{at.X, m.plot.bottom})
	p.circle(at, 7, Stroke{Stick, 2.4, Solid}, Ground)
	p.circle(at, 2, Stroke{Stick, 1, Solid}, Stick)
	p.sheet.Handles = []Handle{{StrokeHandle, at, "this stroke", Anywhere}}
	m.explain(&p)
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

// A hopLook is how a class of strokes looks on the map.
type hopLook struct {
	hatch, outline Stroke
	fill           Ink
}

// hopLooks are the looks of the classes that clear, or may. Strokes that clear form one
// region, hatched where the ball also lands before the target.
var hopLooks = map[hop.Class]hopLook{
	hop.Lands:  {hatch: Stroke{Way, 1, Solid}},
	hop.Clears: {outline: Stroke{Way, 2, Solid}, fill: Grid},
	hop.Unsure: {hatch: Stroke{Off, 1, Dotted}, outline: Stroke{Off, 1.4, Dashed}},
}

// regions draws the regions that the columns form.
func (m *HopMap) regions(p *pen, columns []hop.Column) {
	clear := make([]hop.Column, len(columns))
	none := true
	for i, c := range columns {
		clear[i] = cleared(c)
		none = none && len(clear[i].Runs) == 0
	}
	for i, c := range clear {
		m.fill(p, clear, i)
		for _, r := range columns[i].Runs {
			if look, ok := hopLooks[r.Class]; ok && look.hatch.Width > 0 {
				p.line(look.hatch, m.At(c.Elevation, r.From), m.At(c.Elevation, r.To))
			}
		}
	}
	for i := 1; i < len(clear); i++ {
		for class := hop.Unsure; class <= hop.Clears; class++ {
			m.outline(p, clear[i-1], clear[i], class)
		}
	}
	if none {
		p.label(Text{At: Point{(m.plot.left + m.plot.right) / 2, m.plot.top + 30}, Words: "nothing here clears", Size: 12, Bold: true, Ink: Line, Anchor: Middle})
	}
}

// cleared returns a column in which strokes that clear are one class, whether the ball
// lands before the target or not. It leaves out strokes that touch.
func cleared(c hop.Column) hop.Column {
	out := hop.Column{Elevation: c.Elevation}
	for _, r := range c.Runs {
		if r.Class == hop.Lands {
			r.Class = hop.Clears
		}
		if _, ok := hopLooks[r.Class]; !ok {
			continue
		}
		if last := len(out.Runs) - 1; last >= 0 && out.Runs[last].Class == r.Class && out.Runs[last].To == r.From {
			out.Runs[last].To = r.To
			continue
		}
		out.Runs = append(out.Runs, r)
	}
	return out
}

// fill fills the runs of a column, half way to its neighbours.
func (m *HopMap) fill(p *pen, columns []hop.Column, i int) {
	at := columns[i].Elevation
	from, to := at, at
	if i > 0 {
		from = (at + columns[i-1].Elevation) / 2
	}
	if i < len(columns)-1 {
		to = (at + columns[i+1].Elevation) / 2
	}
	for _, r := range columns[i].Runs {
		if ink := hopLooks[r.Class].fill; ink != "" {
			p.sheet.Items = append(p.sheet.Items, Path{Fill: ink, Points: []Point{m.At(from, r.From), m.At(from, r.To), m.At(to, r.To), m.At(to, r.From)}})
		}
	}
}

// outline draws the outline of a class between two neighbouring columns. Overlapping runs
// of both belong to one region, and their ends are joined. Where a region begins, ends or
// divides, its outline is vertical.
func (m *HopMap) outline(p *pen, left, right hop.Column, class hop.Class) {
	edge := func(a unit.Angle, v unit.Speed, b unit.Angle, w unit.Speed) {
		if min(v, w) < m.fastest {
			p.line(hopLooks[class].outline, m.At(a, v), m.At(b, w))
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

// explain writes the legend: the region that clears, what it is hatched with, and the
// strokes that may touch.
func (m *HopMap) explain(p *pen) {
	rows := legend{8, p.v.Width - 16, p.v.Height + 12}
	for _, r := range []struct {
		class hop.Class
		words string
	}{
		{hop.Clears, "clears"},
		{hop.Lands, "clears and lands before " + phrase.Brief(scenario.Find("dist").Shown(m.s))},
		{hop.Unsure, "may touch: it depends on tip and bed"},
	} {
		b, look := rows.row(p, r.words), hopLooks[r.class]
		if r.class == hop.Lands { // part of the region that clears
			look.outline, look.fill = hopLooks[hop.Clears].outline, hopLooks[hop.Clears].fill
		}
		look.outline.Width = 1.4
		p.sheet.Items = append(p.sheet.Items, Path{Fill: look.fill, Stroke: look.outline, Points: []Point{{b.left, b.top}, {b.right, b.top}, {b.right, b.bottom}, {b.left, b.bottom}, {b.left, b.top}}})
		for x := b.left + 5; look.hatch.Width > 0 && x < b.right; x += 5 {
			p.line(look.hatch, Point{x, b.top}, Point{x, b.bottom})
		}
	}
	p.sheet.Height = rows.foot()
}

// label writes a text on a background of the paper's colour, if there is room.
func (p *pen) label(t Text) {
	if !p.free(&t) {
		return
	}
	p.sheet.Items = append(p.sheet.Items, t.paper())
	p.text(t)
}
