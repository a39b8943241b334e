package sheet

import (
	"math"
	"regexp"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/hop"
	"pivotbench/core/motion"
	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
)

const hopLink = "v=1&side=0&elev=40deg&speed=9mph&gate=12in&gap=2in"

// Below the plan nothing is stretched: the ball, the blockers and the flight have their
// true distances and heights, in ball radii.
func TestSideViewIsToScale(t *testing.T) {
	for _, stretch := range []int{1, 10} {
		v := View{Width: 840, Height: 490, Below: 250, Stretch: stretch}
		s, _, sh := drawn(t, hopLink, v)
		assert.Equal(t, 740.0, sh.Height)
		var balls []Circle
		for _, item := range sh.Items {
			if c, ok := item.(Circle); ok && c.At.Y > v.Height && c.Radius > 5 {
				balls = append(balls, c)
			}
		}
		r := float64(s.GearBall().Radius)
		find := func(y, z float64) bool { // distances from the cue ball in metres
			for _, ball := range balls {
				scale := ball.Radius / r
				for _, from := range balls {
					if math.Abs(ball.At.X-from.At.X-y*scale) < 0.01 && math.Abs(from.At.Y-ball.At.Y-z*scale) < 0.01 {
						return true
					}
				}
			}
			return false
		}
		assert.True(t, find(float64(s.Gate), 0), "a blocker")
		assert.True(t, find(float64(s.Dist), 0), "the target")
		// The highest and the lowest of the paths over the usual contact times.
		shot := s.Shot()
		heights, rise := []float64{math.Inf(1), 0}, 0.0
		for _, r := range hop.Spaced(hop.Usual(shot.Cue.Tip).Ratios(), hop.Enough) {
			var way motion.Path
			require.NoError(t, hop.Send(&shot, r, &way))
			when, err := way.AtLine(s.Gate)
			require.NoError(t, err)
			over, _ := way.At(when)
			heights[0], heights[1] = min(heights[0], over.Pos.Z), max(heights[1], over.Pos.Z)
			if f := hop.Flights(&way, 0); len(f) > 0 {
				rise = max(rise, float64(f[0].Rise()))
			}
		}
		for _, z := range heights {
			assert.True(t, find(float64(s.Gate), z), "the ball over the gate")
		}

		top, floor := math.Inf(1), 0.0
		for _, line := range sh.lines(Way, samples+1) {
			for _, pt := range line.Points {
				if pt.Y > v.Height {
					top, floor = min(top, pt.Y), max(floor, pt.Y)
				}
			}
		}
		assert.InDelta(t, rise/r, (floor-top)/balls[0].Radius, 0.01, "the top of the flight")
	}
}

// The region that the ball's centre must not enter is as high over the gate as hop.Needs
// says.
func TestSideViewShowsTheNeed(t *testing.T) {
	s, res, _ := drawn(t, hopLink, View{Width: 840, Height: 490, Below: 250, Stretch: 1})
	p := pen{s: &s, res: &res, v: View{Width: 840, Height: 490, Below: 250}}
	q := p.newProfile()
	points := q.needed()
	require.NotEmpty(t, points)
	left, _, err := hop.Needs(&res.Path, s.Shot().Gate, s.GearBall().Radius)
	require.NoError(t, err)
	high := 0.0
	for _, pt := range points {
		high = max(high, (q.origin.Y-pt.Y)/q.scale)
	}
	assert.InEpsilon(t, float64(left.Height), high, 1e-3)
}

// A hop that has been seen narrows the range of the view, and a blocker that one of the
// paths touches is marked.
func TestSideViewShowsUncertainty(t *testing.T) {
	said := func(ratios stat.Interval[float64]) (all []string, marked bool) {
		v := View{Width: 840, Height: 490, Below: 250, Stretch: 1, Ratios: ratios}
		_, _, sh := drawn(t, hopLink, v)
		for _, item := range sh.Items {
			switch it := item.(type) {
			case Text:
				all = append(all, it.Words)
			case Circle:
				marked = marked || it.At.Y > v.Height && it.Stroke.Ink == Off
			}
		}
		return all, marked
	}
	usual, marked := said(stat.Interval[float64]{})
	assert.True(t, marked)
	assert.True(t, slices.ContainsFunc(usual, func(w string) bool { return regexp.MustCompile(`^rises \d\.\d\d to \d\.\d\d in$`).MatchString(w) }), "%q", usual)
	assert.True(t, slices.ContainsFunc(usual, func(w string) bool { return regexp.MustCompile(`^lands [\d.]+ to [\d.]+ in`).MatchString(w) }), "%q", usual)
	sure, marked := said(stat.Interval[float64]{From: 0.9, To: 0.9})
	assert.False(t, marked)
	assert.True(t, slices.ContainsFunc(sure, func(w string) bool { return regexp.MustCompile(`^rises \d\.\d\d in$`).MatchString(w) }), "%q", sure)
}

func TestSideViewWhereTheBallHops(t *testing.T) {
	below := func(link string, width, height float64, ask bool) float64 {
		m := app.Start()
		m.Scene = parsed(t, link)
		m.Look.Side = ask
		g := Glass{Width: width, Height: height}
		v := g.View(&m)
		assert.Equal(t, height, v.Height+v.Below)
		return v.Below
	}
	assert.Zero(t, below("v=1", 390, 400, false), "it keeps to the cloth")
	assert.Positive(t, below("v=1", 390, 400, true), "asked for")
	assert.Positive(t, below(hopLink, 390, 400, false))
	assert.Zero(t, below(hopLink, 320, 240, true), "no room")
	assert.Zero(t, below("v=1&side=0.7", 390, 400, false), "a miscue")
}

// While a handle is held the table does not move, even if the shot begins or ceases to
// hop.
func TestSideViewStaysWhileDragging(t *testing.T) {
	m := app.Start()
	m.Scene = parsed(t, hopLink)
	g := Glass{Width: 390, Height: 400}
	before := g.View(&m).Below
	_, ok := g.Drag(&m, GateHandle, app.DragStart, 0, 0, false)
	require.True(t, ok)
	m.Scene.Elev = 0
	assert.Equal(t, before, g.View(&m).Below)
	_, _ = g.Drag(&m, GateHandle, app.DragEnd, 0, 0, false)
	assert.Zero(t, g.View(&m).Below)
}

func hopMap(t *testing.T, link string) (*HopMap, scenario.Scenario) {
	s := parsed(t, link)
	sh := s.Shot()
	var elevations []unit.Angle
	for a := unit.Angle(0); a <= 85; a += 2.5 {
		elevations = append(elevations, a*unit.Degree)
	}
	columns := hop.Map(&sh, []float64{hop.InTurn}, elevations, 30*unit.MilePerHour, s.Dist)
	return NewHopMap(&s, columns, 30*unit.MilePerHour, 25*unit.MilePerHour, 360, 260), s
}

// A point of the map is a stroke, and vice versa.
func TestHopMapPlaces(t *testing.T) {
	for _, c := range []struct{ link, key, elev, speed string }{
		{"v=1&elev=40deg&speed=9mph", "speed", "40deg", "9mph"},
		{"v=1&elev=62.5deg&stroke=12.5mph", "stroke", "62.5deg", "12.5mph"},
		{"v=1&elev=62.5deg&speed=5.3m/s&units=cm", "speed", "62.5deg", "5.3m/s"},
	} {
		m, s := hopMap(t, c.link)
		require.Len(t, m.Handles, 1)
		at := m.At(s.Elev, s.Speed)
		assert.Equal(t, at, m.Handles[0].At)
		assert.Equal(t, []app.Setting{{Key: "elev", Text: c.elev}, {Key: c.key, Text: c.speed}}, m.Strike(at))
	}
	m, _ := hopMap(t, "v=1")
	assert.Equal(t, []app.Setting{{Key: "elev", Text: "0deg"}, {Key: "speed", Text: "0.2mph"}}, m.Strike(Point{-50, 900}), "the ends of what is allowed")
	assert.Equal(t, []app.Setting{{Key: "elev", Text: "85deg"}, {Key: "speed", Text: "40mph"}}, m.Strike(Point{900, -900}))
}

// The outline of a region is closed: where it begins, where it divides, where one part
// ends, and at its end, but not where it extends beyond the map.
func TestHopMapOutline(t *testing.T) {
	s := parsed(t, "v=1")
	run := func(from, to unit.Speed) hop.Run { return hop.Run{From: from, To: to, Class: hop.Lands} }
	a := []unit.Angle{10 * unit.Degree, 11 * unit.Degree, 12 * unit.Degree, 13 * unit.Degree}
	m := NewHopMap(&s, []hop.Column{
		{Elevation: a[0]},
		{Elevation: a[1], Runs: []hop.Run{run(2, 8)}},
		{Elevation: a[2], Runs: []hop.Run{run(3, 5), run(6, 9)}},
		{Elevation: a[3], Runs: []hop.Run{run(7, 13)}},
	}, 13, 20, 360, 260)
	var got [][]Point
	for _, line := range m.lines(Way, 2) {
		if line.Stroke.Width == 2 {
			got = append(got, line.Points)
		}
	}
	want := [][]Point{
		{m.At(a[1], 2), m.At(a[1], 8)},                                  // it begins
		{m.At(a[1], 2), m.At(a[2], 3)},                                  // its lower end
		{m.At(a[1], 8), m.At(a[2], 9)},                                  // its upper end
		{m.At(a[2], 5), m.At(a[2], 6)},                                  // it divides
		{m.At(a[2], 3), m.At(a[2], 5)},                                  // the lower part ends
		{m.At(a[2], 6), m.At(a[3], 7)}, {m.At(a[2], 9), m.At(a[3], 13)}, // the upper part continues
	}
	assert.ElementsMatch(t, want, got)
}

// At an elevation the region that clears begins with the slowest stroke that clears and
// reaches the fastest. It is hatched as far as the ball lands in time. The legend explains
// both.
func TestHopMapLines(t *testing.T) {
	m, s := hopMap(t, hopLink)
	sh := s.Shot()
	sh.Elevation = 45 * unit.Degree
	least, err := hop.FirstFlight(&sh, hop.InTurn)
	require.NoError(t, err)
	long, err := hop.LandsBefore(&sh, hop.InTurn, s.Dist)
	require.NoError(t, err)
	x := m.At(sh.Elevation, 0).X
	hatched, filled := 0, 0
	for _, item := range m.Items {
		line, ok := item.(Path)
		if !ok {
			continue
		}
		a, b := line.Points[0], line.Points[1]
		switch {
		case line.Stroke.Ink == Way && line.Stroke.Width == 1 && a.X == x && b.X == x:
			hatched++
			assert.InDelta(t, m.At(sh.Elevation, least).Y, a.Y, 0.1)
			assert.InDelta(t, m.At(sh.Elevation, long).Y, b.Y, 0.1)
		case line.Fill == Grid && a.X < x && line.Points[2].X > x && a.Y < m.plot.bottom:
			filled++
			assert.InDelta(t, m.At(sh.Elevation, least).Y, a.Y, 0.1)
			assert.InDelta(t, m.plot.top, b.Y, 0.1)
		}
	}
	assert.Equal(t, 1, hatched)
	assert.Equal(t, 1, filled)
	for _, item := range m.Items {
		if text, ok := item.(Text); ok {
			b := text.box()
			assert.True(t, b.left >= 0 && b.right <= m.Width && b.top >= 0 && b.bottom <= m.Height, "%q is cut off", text.Words)
		}
	}

	elements, said, _ := parts(t, SVG(&m.Sheet, "map"))
	assert.Greater(t, elements["path"], 30)
	assert.Subset(t, said, []string{"clears", "beyond most players", "clears and lands before 36 in", "elevation", "ball speed, mph"})
	m, _ = hopMap(t, "v=1&stroke=7m/s&units=cm&gate=3in&gap=0in")
	_, said, _ = parts(t, SVG(&m.Sheet, "map"))
	assert.Contains(t, said, "cue speed, m/s")
	m, _ = hopMap(t, "v=1&hop=0&side=0&gap=1in")
	_, said, _ = parts(t, SVG(&m.Sheet, "map"))
	assert.Contains(t, said, "nothing here clears", "a bed that gives nothing back")
}
