package view_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/instrument"
	"pivotbench/core/scenario"
	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// slow is a sitting of strokes that swerve a lot: slow ones, or with a raised cue.
func slow(t *testing.T, link string) (app.Model, *view.Sitting) {
	t.Helper()
	var noted []app.Event
	for i := range 8 {
		side, mark := "0.4", "-0.8in"
		if i%2 == 1 {
			side, mark = "-0.4", "0.8in"
		}
		noted = append(noted, parallel("House 4", side, mark)...)
	}
	return sat(t, after(app.Open{Link: link}, app.MeasureCue{Name: "House 4"}), noted...)
}

// What would help most is said until it is done: then the interval is what was
// promised, nobody is asked to measure the same thing again, and Undo takes it back.
func TestAReadingNarrowsWhatWasAskedFor(t *testing.T) {
	m, s := slow(t, "v=1&speed=12mph&elev=9deg")
	asked := view.Help(&m, s)
	require.Contains(t, asked, "Measure your elevation with the phone, under Instruments: after 12 more strokes ±")

	tilt := func(up unit.Angle) []instrument.Tilt { return []instrument.Tilt{{Beta: up}} }
	g := view.Level(tilt(0), tilt(9*unit.Degree))
	require.Equal(t, []app.Setting{{Key: "elev", Text: "9deg"}}, g.Sets)
	require.Len(t, g.Sure, 1)
	assert.Equal(t, "elevation", g.Sure[0].Key)
	assert.InDelta(t, float64(instrument.Phone), g.Sure[0].Error, 0.1*float64(instrument.Phone))
	used := app.Update(m, app.UseReading{Sets: g.Sets, Sure: g.Sure})
	assert.Equal(t, "Used in the shot. Measure now takes the elevation as good to 0.3°. Undo takes it back", view.UsedWords(&m, &used))
	assert.Equal(t, "Used in the shot. Undo takes it back", view.UsedWords(&used, &used))
	_, surer := sat(t, used)
	width := func(s *view.Sitting) float64 { e := s.Post.Pivot(0); return e.To / e.From }
	assert.Less(t, width(surer)-1, 0.9*(width(s)-1))
	assert.NotContains(t, view.Help(&used, surer), "elevation")
	assert.NotEqual(t, asked, view.Help(&used, surer))

	back := app.Update(used, app.Undo{})
	known := func(m app.Model) sitting.SetUp { return m.SittingOn().SetUp }
	assert.Equal(t, known(m), known(back))
	assert.Equal(t, known(used), known(app.Update(back, app.Redo{})))
	assert.Less(t, known(used).Elevation, known(m).Elevation)
}

// Help goes through all that can be measured, and ends.
func TestHelpAsksForEachThingOnce(t *testing.T) {
	m, s := slow(t, "v=1&speed=7mph&elev=4deg")
	seen := map[string]bool{}
	for range 6 {
		said := view.Help(&m, s)
		if said == "" {
			break
		}
		require.False(t, seen[said], said)
		seen[said] = true
		switch {
		case strings.HasPrefix(said, "Measure your elevation"):
			m = app.Update(m, app.UseReading{Sure: []app.Sureness{{Key: "elevation", Error: float64(instrument.Phone)}}})
		case strings.HasPrefix(said, "Time your strokes"):
			m = app.Update(m, app.UseReading{Sure: []app.Sureness{{Key: "speed", Error: 0.02}}})
		case strings.HasPrefix(said, "Measure how far"):
			m = app.Update(m, app.UseReading{Sure: []app.Sureness{{Key: "slide", Error: 0.09}}})
		default:
			m = app.Update(m, app.Set{Key: "speed", Text: "12mph"})
		}
		_, s = sat(t, m)
	}
	assert.Empty(t, view.Help(&m, s))
	assert.GreaterOrEqual(t, len(seen), 2)
}

// What a reading says about the set-up is half its interval in standard deviations: of
// the elevation and the offset as they are, of speed and friction as shares of them.
func TestReadingsKnowTheSetUp(t *testing.T) {
	s := scenario.Default()
	timings := []store.Reading{timed("speed", "2m", "0.8486s", "0"), timed("speed", "2m", "0.86s", "0"), timed("speed", "2m", "0.84s", "0")}
	runs := []instrument.Run{}
	for _, seconds := range []unit.Span{0.8486, 0.86, 0.84} {
		runs = append(runs, instrument.Run{Dist: 2, Time: seconds, Press: instrument.Thumb, Cloth: s.GearCloth()})
	}
	speed, err := instrument.Speed(runs, s.GearBall().Radius)
	require.NoError(t, err)
	cue := s.Shot().Cue
	offset, err := instrument.OffsetEstimate(instrument.Across, 12*unit.Millimetre, s.GearBall(), cue.Tip)
	require.NoError(t, err)
	half := func(from, to float64) float64 { return (to - from) / 2 / stat.Reach90 }
	for _, tc := range []struct {
		g    view.Gauged
		key  string
		want float64
	}{
		{view.Speed(&s, timings), "speed", half(float64(speed.From), float64(speed.To)) / float64(speed.Median)},
		{view.Offset(&s, view.Ways[instrument.Across], "12", "left"), "offset", half(offset.From, offset.To)},
	} {
		require.Len(t, tc.g.Sure, 1, tc.key)
		assert.Equal(t, tc.key, tc.g.Sure[0].Key)
		assert.InEpsilon(t, tc.want, tc.g.Sure[0].Error, 0.15)
	}
	slide := view.Sliding(&s, timings, "1.1240m", "rolls")
	require.Len(t, slide.Sure, 1)
	assert.Equal(t, "slide", slide.Sure[0].Key)
	friction, err := instrument.Sliding(runs, instrument.Slide{Length: 1.124}, s.GearBall().Radius)
	require.NoError(t, err)
	assert.InEpsilon(t, half(friction.From, friction.To)/friction.Median, slide.Sure[0].Error, 0.15)

	// A butt at the height of the tip is level, to one side only.
	level := view.Elevation(&s, "101mm", "100mm", "1m", "", "")
	require.Len(t, level.Sure, 1)
	assert.Positive(t, level.Sure[0].Error)
	assert.Empty(t, view.Offset(&s, view.Ways[instrument.Across], "12", "above").Sure, "height is no quantity of the set-up")
	assert.Empty(t, view.Speed(&s, nil).Sure)

	// A worse reading than what is known changes nothing.
	m := app.Update(app.Start(), app.UseReading{Sets: []app.Setting{{Key: "speed", Text: "8mph"}}, Sure: []app.Sureness{{Key: "speed", Error: 0.4}}})
	assert.Equal(t, sitting.Habit, m.SittingOn().SetUp)
	assert.Len(t, m.Past, 1)
	m = app.Update(m, app.UseReading{Sets: []app.Setting{{Key: "speed", Text: "8mph"}}, Sure: []app.Sureness{{Key: "speed", Error: 0.04}}})
	assert.InDelta(t, 0.04, m.SittingOn().SetUp.Speed, 1e-15)
	assert.Len(t, m.Past, 2, "it can be undone though the shot stays")
}
