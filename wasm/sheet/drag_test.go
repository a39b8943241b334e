package sheet

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
)

var phone = View{Width: 390, Height: 400, Stretch: 4}

// pulled returns the scenario after a drag, and its sheet as drawn by the program that
// holds the handle.
func pulled(t testing.TB, s scenario.Scenario, v View, id HandleID, dx, dy float64, slow bool) (scenario.Scenario, Sheet) {
	t.Helper()
	pull := Take(&s, v)
	m := app.Model{Scene: s, Settled: s}
	m = app.Update(m, pull.To(id, app.DragStart, 0, 0, slow))
	require.Equal(t, s, m.Scene, "a press alone moves nothing")
	m = app.Update(m, pull.To(id, app.DragMove, dx, dy, slow))
	require.Empty(t, m.Notices)
	v.Extent = pull.Extent()
	return m.Scene, draw(&m.Scene, v)
}

func draw(s *scenario.Scenario, v View) Sheet {
	var res shot.Result
	sh := s.Shot()
	shot.Play(&sh, &res)
	return Draw(s, &res, v)
}

func (s *Sheet) handleAt(t testing.TB, id HandleID) Point {
	t.Helper()
	for _, h := range s.Handles {
		if h.ID == id {
			return h.At
		}
	}
	t.Fatalf("no handle %s", id)
	return Point{}
}

func parsed(t testing.TB, link string) scenario.Scenario {
	t.Helper()
	s, problems := scenario.Parse(link)
	require.Empty(t, problems)
	return s
}

// atLimit reports whether a drag ended at a limit of its key.
func atLimit(s *scenario.Scenario) bool {
	for _, key := range []string{"bridge", "grip", "gap", "gate", "dist"} {
		k := scenario.Find(key)
		if v, _ := k.Number(s); math.Abs(v-k.Min) < 1e-9 || math.Abs(v-k.Max) < 1e-9 {
			return true
		}
	}
	return false
}

// moves are short drags of every handle, in each of its directions.
var moves = []struct {
	id     HandleID
	dx, dy float64
}{
	{BridgeHandle, 0, 25}, {BridgeHandle, 0, -25},
	{GripHandle, 0, 12}, {GripHandle, 0, -12},
	{TipHandle, -15, 9}, {TipHandle, 6, -12},
	{GapHandle, 14, 0}, {GapHandle, -6, 0},
	{GateHandle, 0, 20}, {GateHandle, 0, -20},
	{TargetHandle, 0, 15}, {TargetHandle, 0, -20},
}

// The handle follows the finger to within half a step. Only at the sheet's edge does it
// stay behind.
func TestHandleFollowsTheFinger(t *testing.T) {
	for _, link := range []string{"v=1", "v=1&units=cm", "v=1&bridge=9in&dist=60in&gate=24in&gap=3in", "v=1&side=-0.3&height=0.2&grip=20in"} {
		for _, v := range views {
			for _, v.Stretch = range []int{1, 4, 10} {
				s := parsed(t, link)
				base := draw(&s, v)
				pl := newPlan(&s, v)
				for _, m := range moves {
					now, after := pulled(t, s, v, m.id, m.dx, m.dy, false)
					if atLimit(&now) {
						continue
					}
					from, to := base.handleAt(t, m.id), after.handleAt(t, m.id)
					want := Point{from.X + m.dx, from.Y + m.dy}
					if (&pen{v: v}).inside(want) != want {
						continue
					}
					// Half a step of the coarsest key, on this sheet.
					slack := 0.5*pl.scale*float64(1*unit.Centimetre)*1.3 + 0.6
					if m.id == GapHandle {
						slack = pl.scale*pl.stretch*float64(0.025*unit.Inch)/2 + 0.6
					}
					if m.id == TipHandle {
						slack = 0.01*sectionRadius(v) + 0.6
					} else if m.id != GapHandle {
						to.X, want.X = 0, 0 // these go up and down; sideways they follow the cue or the margin
					}
					if m.id == GripHandle {
						slack *= 1.6 // the cue's slant shortens it
					}
					if math.Abs(to.X-want.X) > slack || math.Abs(to.Y-want.Y) > slack {
						t.Errorf("%s on %vx%v ×%d: %s dragged by %v, %v from %.1f came to %.1f, not %.1f", link, v.Width, v.Height, v.Stretch, m.id, m.dx, m.dy, from, to, want)
					}
				}
			}
		}
	}
}

// While a handle is held, the table does not move.
func TestTableHoldsStillWhileDragging(t *testing.T) {
	for _, v := range views {
		v.Stretch = 4
		s := scenario.Default()
		before := newPlan(&s, v)
		for _, m := range moves {
			now, _ := pulled(t, s, v, m.id, m.dx, m.dy, false)
			held := v
			held.Extent = Fit(&s)
			assert.InDelta(t, before.origin.Y, newPlan(&now, held).origin.Y, 0.01, "%s on %v", m.id, v)
			assert.InDelta(t, before.scale, newPlan(&now, held).scale, 1e-6*before.scale, "%s on %v", m.id, v)
		}
	}
}

func TestDragDirections(t *testing.T) {
	number := func(s *scenario.Scenario, key string) float64 {
		v, _ := scenario.Find(key).Number(s)
		return v
	}
	for _, tc := range []struct {
		id     HandleID
		dx, dy float64
		key    string
		sign   float64
	}{
		{BridgeHandle, 0, 30, "bridge", 1}, {GripHandle, 0, 30, "grip", 1},
		{TargetHandle, 0, -30, "dist", 1}, {GateHandle, 0, -30, "gate", 1},
		{GapHandle, 30, 0, "gap", 1}, {TipHandle, 10, 0, "side", 1}, {TipHandle, 0, -10, "height", 1},
	} {
		for _, way := range []float64{1, -1} {
			s := scenario.Default()
			now, _ := pulled(t, s, phone, tc.id, way*tc.dx, way*tc.dy, false)
			gone := number(&now, tc.key) - number(&s, tc.key)
			assert.Greater(t, gone*way*tc.sign, 0.0, "%s by %v, %v", tc.id, way*tc.dx, way*tc.dy)
			// No other value changed.
			k := scenario.Find(tc.key)
			require.Nil(t, k.Set(&now, k.Value(&s), ""))
			assert.Equal(t, s, now, "%s", tc.id)
		}
	}
}

func TestGapGrowsByTwiceTheFingersWay(t *testing.T) {
	s := scenario.Default()
	pl := newPlan(&s, phone)
	now, _ := pulled(t, s, phone, GapHandle, 20, 0, false)
	want := float64(s.Gap) + 2*20/pl.scale/pl.stretch
	assert.InDelta(t, want, float64(now.Gap), float64(0.026*unit.Inch))
}

// whole checks that a length is a whole number of steps.
func whole(t testing.TB, v, step unit.Length, what string) {
	t.Helper()
	n := float64(v / step)
	assert.InDelta(t, math.Round(n), n, 1e-9, "%s: %v steps", what, n)
}

func TestDragSnaps(t *testing.T) {
	for _, tc := range []struct {
		link       string
		id         HandleID
		dy         float64
		step, fine unit.Length
		get        func(*scenario.Scenario) unit.Length
	}{
		{"v=1&bridge=11.93in", BridgeHandle, 31, 0.5 * unit.Inch, 0.1 * unit.Inch, func(s *scenario.Scenario) unit.Length { return s.Bridge }},
		{"v=1&bridge=11.93in&units=cm", BridgeHandle, 31, 0.5 * unit.Centimetre, 0.1 * unit.Centimetre, func(s *scenario.Scenario) unit.Length { return s.Bridge }},
		{"v=1&grip=29.9in", GripHandle, 13, 0.5 * unit.Inch, 0.1 * unit.Inch, func(s *scenario.Scenario) unit.Length { return s.Grip }},
		{"v=1&dist=40.01in&units=cm", TargetHandle, 21, 1 * unit.Centimetre, 0.2 * unit.Centimetre, func(s *scenario.Scenario) unit.Length { return s.Dist }},
		{"v=1&gate=29.9in", GateHandle, 21, 0.5 * unit.Inch, 0.1 * unit.Inch, func(s *scenario.Scenario) unit.Length { return s.Gate }},
	} {
		s := parsed(t, tc.link)
		coarse, _ := pulled(t, s, phone, tc.id, 0, tc.dy, false)
		fine, _ := pulled(t, s, phone, tc.id, 0, tc.dy, true)
		whole(t, tc.get(&coarse), tc.step, tc.link)
		whole(t, tc.get(&fine), tc.fine, tc.link)
		gone, slow := tc.get(&coarse)-tc.get(&s), tc.get(&fine)-tc.get(&s)
		assert.InDelta(t, float64(gone)/5, float64(slow), float64(tc.step), "%s: fine work has a fifth of the travel", tc.link)
		assert.NotEqual(t, tc.get(&s), tc.get(&fine), tc.link)
	}
}

func TestDragLeavesShortMovesAlone(t *testing.T) {
	s := parsed(t, "v=1&bridge=11.93in&side=0.4123")
	for _, id := range []HandleID{BridgeHandle, TipHandle} {
		now, _ := pulled(t, s, phone, id, 0.1, 0.1, false)
		assert.Equal(t, s, now, "%s", id)
	}
}

func TestDragStopsAtTheLimits(t *testing.T) {
	far := map[HandleID][2]float64{
		BridgeHandle: {0, 1}, GripHandle: {0, 1}, TargetHandle: {0, 1}, GateHandle: {0, 1}, GapHandle: {1, 0}, TipHandle: {1, 1},
	}
	for _, units := range []string{"in", "cm"} {
		for id, way := range far {
			for _, d := range []float64{1e5, -1e5} {
				s := scenario.Default()
				s.Units = units
				for _, set := range Drag(&s, phone, id, d*way[0], d*way[1], false) {
					k := scenario.Find(set.Key)
					now := s
					require.Nil(t, k.Set(&now, set.Text, ""), "%s: %s", id, set.Text)
					v, _ := k.Number(&now)
					off := min(math.Abs(v-k.Min), math.Abs(v-k.Max))
					assert.Less(t, off, 1e-12, "%s = %s", set.Key, set.Text)
				}
			}
		}
	}
}

func TestDragOfNoHandle(t *testing.T) {
	s := scenario.Default()
	assert.Empty(t, Drag(&s, phone, "rudder", 10, 10, false))
}

func TestPullCancelled(t *testing.T) {
	s := scenario.Default()
	pull := Take(&s, phone)
	assert.Equal(t, app.Drag{Phase: app.DragCancel}, pull.To(BridgeHandle, app.DragCancel, 5, 5, false))
}

// The text that a drag sets is short enough for a link.
func TestDragWritesRoundNumbers(t *testing.T) {
	s := scenario.Default()
	for dy := -60.0; dy <= 60; dy++ {
		for _, set := range Drag(&s, phone, BridgeHandle, 0, dy, false) {
			assert.LessOrEqual(t, len(set.Text), len("12.5in"), set.Text)
		}
		for _, set := range Drag(&s, phone, TipHandle, dy/2, dy/3, false) {
			assert.LessOrEqual(t, len(set.Text), len("-0.42"), set.Text)
		}
	}
}

func TestFitIsStable(t *testing.T) {
	steps := map[Extent]bool{}
	for b := 10.0; b <= 14; b += 0.05 {
		s := scenario.Default()
		s.Bridge = unit.Length(b) * unit.Inch
		e := Fit(&s)
		assert.GreaterOrEqual(t, e.Down, s.Bridge+s.GearBall().Radius)
		steps[e] = true
	}
	assert.LessOrEqual(t, len(steps), 2, "small changes leave the table where it is")
}
