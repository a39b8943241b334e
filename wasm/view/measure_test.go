package view_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/sitting"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// sat is a model in which strokes were noted, and their sitting.
func sat(t *testing.T, m app.Model, strokes ...app.Event) (app.Model, *view.Sitting) {
	t.Helper()
	for _, e := range strokes {
		m = app.Update(m, e)
		require.Empty(t, m.Notices)
	}
	sitting := view.NewSitting(m.SetUp, m.Scene.PivotSpin)
	for _, k := range m.Kept.Strokes {
		sitting = sitting.Add(k)
	}
	return m, sitting
}

// parallel is a stroke with the cue moved over, marked on the line at 30 in.
func parallel(cue, side, mark string) []app.Event {
	return []app.Event{
		app.SetAll{Sets: []app.Setting{{Key: "side", Text: side}, {Key: "back", Text: "0"}, {Key: "front", Text: "0"}}},
		app.NoteStroke{Cue: cue, Mark: mark, At: "30in", Read: "3mm"},
	}
}

// Marks of a cue that squirts 2.2° at 0.4 R, to either side in turn: the pivot length
// found is that of the squirt, its interval is told, and what is suggested can be set.
func TestWhatMarksSay(t *testing.T) {
	start := after(app.Open{Link: "v=1&speed=12mph&elev=1deg"}, app.MeasureCue{Name: "House 4"})
	none := view.Weigh(&start, view.NewSitting(start.SetUp, 0.5))
	assert.Equal(t, "No strokes yet", none.Head)
	assert.Zero(t, none.Pivot)
	assert.NotEmpty(t, none.Sets, "the first stroke is suggested too")

	var noted []app.Event
	for _, mark := range []string{"-1.15in", "1.1in", "-1.2in", "1.15in", "-1.1in", "1.2in", "-1.15in", "1.1in"} {
		side := "0.4"
		if mark[0] != '-' {
			side = "-0.4"
		}
		noted = append(noted, parallel("House 4", side, mark)...)
	}
	m, s := sat(t, start, noted...)
	f := view.Weigh(&m, s)
	assert.InDelta(t, s.Post.Pivot(0).Median, float64(f.Pivot), 1e-12)
	assert.Contains(t, f.Head, "pivot length ")
	assert.Contains(t, f.Head, ", probably ")
	assert.Contains(t, f.Limit, "passes this gate clean")
	for _, set := range f.Sets {
		m = app.Update(m, app.Set{Key: set.Key, Text: set.Text})
		assert.Empty(t, m.Notices, set.Key)
	}

	// Off this pivot length a pure back-hand stroke with the same english sends the
	// ball along the aim line, but for swerve.
	record := view.MeasuredCue(&m, s, "2026-11-24")
	assert.Equal(t, []string{"House 4", "marks"}, []string{record.Name, record.How})
	saved, err := store.Decode(store.Records{Cues: []store.CueRecord{record}}.Encode())
	require.NoError(t, err)
	assert.Equal(t, record, saved.Cues[0])
	straight := app.Update(m, app.SetAll{Sets: []app.Setting{
		{Key: "pivot", Text: record.Pivot}, {Key: "bridge", Text: record.Pivot}, {Key: "side", Text: "0.5"}, {Key: "back", Text: "1"}}})
	assert.InDelta(t, 0, float64(straight.Play().Reading.Launch.Value/unit.Degree), 0.1)
}

// A mark on the wrong side is asked about, and on the other side it fits.
func TestAMarkOnTheWrongSideIsAskedAbout(t *testing.T) {
	start := after(app.Open{Link: "v=1&speed=12mph&elev=1deg"})
	var noted []app.Event
	for i, mark := range []string{"-1.15in", "1.1in", "-1.2in", "1.15in", "-1.1in", "1.2in", "1.1in"} {
		side := "0.4"
		if i%2 == 1 {
			side = "-0.4"
		}
		noted = append(noted, parallel("", side, mark)...)
	}
	m, s := sat(t, start, noted...)
	flipped, ask := s.OtherSide()
	assert.True(t, ask)
	assert.Equal(t, "-1.1in", flipped.Mark)
	assert.Contains(t, view.OtherSideWords(&m, s), "Stroke 7, 1.10 in right,")
	m = app.Update(m, app.ChangeStroke{Was: m.Kept.Strokes[6], Stroke: flipped})
	_, right := sat(t, m)
	_, ask = right.OtherSide()
	assert.False(t, ask)
}

// Cues of one sitting are held against each other, and the one that squirts less is
// named whichever is being measured.
func TestCuesOfASitting(t *testing.T) {
	start := after(app.Open{Link: "v=1&speed=12mph&elev=1deg"}, app.MeasureCue{Name: "Slender"})
	var noted []app.Event
	for range 3 {
		noted = append(noted, parallel("House 4", "0.4", "-1.5in")...)
		noted = append(noted, parallel("House 4", "-0.4", "1.5in")...)
		noted = append(noted, parallel("Slender", "0.4", "-0.6in")...)
		noted = append(noted, parallel("slender", "-0.4", "0.6in")...)
	}
	m, s := sat(t, start, noted...)
	assert.Equal(t, []string{"House 4", "Slender"}, s.Cues, "whatever its case")
	for _, name := range []string{"Slender", "House 4"} {
		m = app.Update(m, app.MeasureCue{Name: name})
		others := view.Weigh(&m, s).Others
		require.Len(t, others, 1)
		assert.Contains(t, others[0].Value, "Slender squirts less: 99 % sure.")
	}
}

// A cue at the end of what can be measured is not called measured.
func TestACueThatHardlySquirtsIsNotMeasured(t *testing.T) {
	start := after(app.Open{Link: "v=1&speed=12mph&elev=0deg"})
	var noted []app.Event
	for range 5 {
		noted = append(noted, parallel("", "0.4", "0in")...)
		noted = append(noted, parallel("", "-0.4", "0in")...)
	}
	m, s := sat(t, start, noted...)
	f := view.Weigh(&m, s)
	assert.Zero(t, f.Pivot)
	assert.Contains(t, f.Head, "Not measured yet")
	assert.Equal(t, sitting.LongEdge, s.Post.Leans(0))
}

// Strokes that can't have been are noted and left out; the sitting goes on from where
// it is, and begins anew when something before has changed.
func TestSittingsGoOn(t *testing.T) {
	good := store.Stroke{Link: "v=1&speed=12mph", See: "clean"}
	slow := store.Stroke{Link: "v=1&speed=0.3mph&dist=90in&gate=80in", See: "clean"}
	s := view.NewSitting(sitting.Habit, 0.5).Add(good).Add(slow).Add(good)
	assert.Equal(t, []int{0, 2}, s.Taken)
	log := []store.Stroke{good, slow, good, good}
	assert.True(t, s.Begins(log, sitting.Habit, 0.5))
	assert.False(t, s.Begins(log, sitting.Habit, 0.4))
	assert.False(t, s.Begins(log, sitting.SetUp{}, 0.5))
	assert.False(t, s.Begins(log[:2], sitting.Habit, 0.5))
	assert.False(t, s.Begins([]store.Stroke{slow, slow, good}, sitting.Habit, 0.5))
	assert.Contains(t, view.Doubt(1, false, 0), "Stroke 2 is left out")
	assert.Contains(t, view.Doubt(0, true, 0.9), "contradicts the others")
	assert.Empty(t, view.Doubt(0, true, 0.4))
}

// A cue that is renamed in the middle of a sitting keeps its strokes, and a stroke under
// the new name is one more of it. A sitting from before the change does not go on.
func TestACueRenamedInMidSitting(t *testing.T) {
	start := after(app.Open{Link: "v=1&speed=12mph&elev=1deg"}, app.MeasureCue{Name: "House 4"})
	var noted []app.Event
	for _, mark := range []string{"-1.15in", "1.1in", "-1.2in"} {
		side := "0.4"
		if mark[0] != '-' {
			side = "-0.4"
		}
		noted = append(noted, parallel("House 4", side, mark)...)
	}
	m, before := sat(t, start, noted...)
	m, renamed := sat(t, m, app.RenameCue{Was: "House 4", Name: "House 9"})
	assert.Equal(t, "House 9", m.Measuring)
	assert.False(t, before.Begins(m.Kept.Strokes, m.SetUp, m.Scene.PivotSpin))
	assert.Equal(t, before.Post.Pivot(0), renamed.Post.Pivot(0))
	m, more := sat(t, m, parallel("house 9", "-0.4", "1.15in")...)
	require.Len(t, more.Cues, 1)
	assert.Equal(t, 4, more.Post.Strokes(more.Cue(m.Measuring)))
}
