package sheet

import (
	"math"

	"pivotbench/core/hop"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/words"
)

// StrokeHandle is the stroke on the map of what clears.
const StrokeHandle HandleID = "stroke"

// A HopMap is the map of what clears, speed against elevation, and its axes.
type HopMap struct {
	Sheet
	s        *scenario.Scenario
	fastest  unit.Speed
	plot     box
	steepest unit.Angle
}

// NewHopMap draws the columns of a map, which go up to a speed: upright lines
// where strokes clear, solid where the ball is down before the target and
// dotted where it is not; a line at the hardest that people strike; and the
// stroke as it is.
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

// At is where a stroke stands on the map.
func (m *HopMap) At(elevation unit.Angle, speed unit.Speed) Point {
	return Point{
		m.plot.left + (m.plot.right-m.plot.left)*float64(min(elevation/m.steepest, 1)),
		m.plot.bottom - (m.plot.bottom-m.plot.top)*float64(min(speed/m.fastest, 1)),
	}
}

// Strike is the stroke at a place on the map, snapped to round values.
func (m *HopMap) Strike(at Point) []app.Setting {
	elevation := float64(m.steepest) * (at.X - m.plot.left) / (m.plot.right - m.plot.left)
	speed := float64(m.fastest) * (m.plot.bottom - at.Y) / (m.plot.bottom - m.plot.top)
	name, step := "mph", 0.5*float64(unit.MilePerHour)
	if m.s.Units == "cm" {
		name, step = "m/s", 0.1
	}
	key := scenario.Find("speed")
	if m.s.ByStroke {
		key = scenario.Find("stroke")
	}
	set := func(k *scenario.Key, v, step float64, unitName string) app.Setting {
		v = min(max(math.Round(v/step)*step, k.Min), k.Max)
		u, _ := k.Quantity.Find(unitName)
		return app.Setting{Key: k.Name, Text: unit.Exact(math.Round(v/u.SI*1e6)/1e6*u.SI, k.Quantity, unitName)}
	}
	return []app.Setting{
		set(scenario.Find("elev"), elevation, 0.5*float64(unit.Degree), "deg"),
		set(key, speed, step, name),
	}
}

// axes draws the frame, the scales and what they measure.
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

// hopLooks are how the classes that clear are drawn.
var hopLooks = map[hop.Class]Stroke{hop.Lands: {Way, 1.6, Solid}, hop.Clears: {Way, 1.4, Dotted}}

// regions draws the columns, the edges from one to the next, and says in
// each region what it is.
func (m *HopMap) regions(p *pen, columns []hop.Column) {
	none := true
	for i, c := range columns {
		for _, r := range c.Runs {
			if st, ok := hopLooks[r.Class]; ok {
				none = false
				p.line(st, m.At(c.Elevation, r.From), m.At(c.Elevation, r.To))
			}
		}
		if i == 0 {
			continue
		}
		was := columns[i-1]
		for class := range hopLooks {
			for _, end := range []func(hop.Run) unit.Speed{
				func(r hop.Run) unit.Speed { return r.From },
				func(r hop.Run) unit.Speed { return r.To },
			} {
				m.edges(p, was.Elevation, c.Elevation, ends(was.Runs, class, end), ends(c.Runs, class, end))
			}
		}
	}
	if none {
		p.label(Text{At: Point{(m.plot.left + m.plot.right) / 2, m.plot.top + 30}, Words: "nothing here clears", Size: 12, Bold: true, Ink: Line, Anchor: Middle})
	}
	m.name(p, columns, hop.Lands, "down before "+words.Brief(scenario.Find("dist").Shown(m.s)))
	m.name(p, columns, hop.Clears, "clears")
}

// ends are the speeds at one end of the runs of a class.
func ends(runs []hop.Run, class hop.Class, end func(hop.Run) unit.Speed) []unit.Speed {
	var out []unit.Speed
	for _, r := range runs {
		if r.Class == class {
			out = append(out, end(r))
		}
	}
	return out
}

// edges joins ends of one column to those of the next that are nearest to
// each other and near: where a region divides or begins, its lines alone tell.
func (m *HopMap) edges(p *pen, left, right unit.Angle, a, b []unit.Speed) {
	for _, v := range a {
		w, ok := nearestTo(v, b)
		back, _ := nearestTo(w, a)
		if ok && back == v && math.Abs(float64(v-w)) < float64(m.fastest)/8 && min(v, w) < m.fastest {
			p.line(Stroke{Way, 2, Solid}, m.At(left, v), m.At(right, w))
		}
	}
}

// nearestTo is the speed of a list that is nearest to one.
func nearestTo(v unit.Speed, list []unit.Speed) (best unit.Speed, ok bool) {
	for i, w := range list {
		if i == 0 || math.Abs(float64(w-v)) < math.Abs(float64(best-v)) {
			best = w
		}
	}
	return best, len(list) > 0
}

// name writes what a class means where it has most room.
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
		t.At.Y = under // the band is too narrow for it
	}
	if room > 0 {
		p.label(t)
	}
}

// under is the baseline of a text that stands below a class.
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

// label writes a text on the paper's own colour, where there is room.
func (p *pen) label(t Text) {
	if !p.free(&t) {
		return
	}
	b := t.box()
	p.sheet.Items = append(p.sheet.Items, Path{Fill: Ground, Stroke: Stroke{Ground, 1, Solid}, Points: []Point{
		{b.left - 3, b.top - 2}, {b.right + 3, b.top - 2}, {b.right + 3, b.bottom + 2}, {b.left - 3, b.bottom + 2}, {b.left - 3, b.top - 2},
	}})
	p.text(t)
}
