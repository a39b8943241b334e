package view_test

import (
	"strconv"
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
	sitting := view.NewSitting(m.SittingOn().SetUp, m.Scene.PivotSpin)
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
	assert.Equal(t, view.Estimate{Why: "no strokes yet"}, none.Exact)
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
	pivot := s.Post.Pivot(0)
	for text, want := range map[string]float64{f.Exact.Value: pivot.Median, f.Exact.From: pivot.From, f.Exact.To: pivot.To} {
		v, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		assert.InDelta(t, want, v, 1e-15)
	}
	assert.Contains(t, f.Head, "pivot length ")
	assert.Contains(t, f.Head, ", probably ")
	assert.Contains(t, f.Limit, "passes this gate clean")
	for _, set := range f.Sets {
		m = app.Update(m, app.Set{Key: set.Key, Text: set.Text})
		assert.Empty(t, m.Notices, set.Key)
	}

	// Off this pivot length a pure back-hand stroke with the same english sends the
	// ball along the aim line, but for swerve.
	record := view.MeasuredCues(&m, s, "2026-11-24")[0]
	assert.Equal(t, []string{"House 4", "marks"}, []string{record.Name, record.How})
	saved, err := store.Decode(store.Records{Cues: []store.CueRecord{record}}.Encode())
	require.NoError(t, err)
	assert.Equal(t, record, saved.Cues[0])
	straight := app.Update(m, app.SetAll{Sets: []app.Setting{
		{Key: "pivot", Text: record.Pivot}, {Key: "bridge", Text: record.Pivot}, {Key: "side", Text: "0.5"}, {Key: "back", Text: "1"}}})
	assert.InDelta(t, 0, float64(straight.Play().Reading.Launch.Value/unit.Degree), 0.1)
}

// A mark on the wrong side is asked about, whether it is the first of its side or goes
// against those before it. On the other side it is not.
func TestAMarkOnTheWrongSideIsAskedAbout(t *testing.T) {
	start := after(app.Open{Link: "v=1&speed=12mph&elev=1deg"})
	var noted []app.Event
	for i, mark := range []string{"-1.15in", "1.1in", "-1.2in", "1.15in"} {
		side := "0.4"
		if i%2 == 1 {
			side = "-0.4"
		}
		noted = append(noted, parallel("", side, mark)...)
	}
	m, s := sat(t, start, noted...)
	for _, c := range []struct {
		mark string
		ask  bool
	}{{"1.1in", true}, {"-1.1in", false}, {"-0.6in", false}, {"0.1in", false}} {
		with, _ := sat(t, m, parallel("", "0.4", c.mark)...)
		assert.Equal(t, c.ask, s.Mistaken(with.Kept.Strokes[4]), c.mark)
	}
	gate := store.Stroke{Link: "v=1", See: "left"}
	assert.False(t, s.Mistaken(gate))
	assert.Equal(t, "right", gate.Across().See)

	with, _ := sat(t, m, append(parallel("", "0.4", "1.1in"), parallel("", "0.4", "1.2in")...)...)
	wrong := with.Kept.Strokes[4:]
	assert.Contains(t, view.OtherSideWords(&with, wrong[:1]), "Stroke 5, 1.10 in right, fits far better on the other side")
	assert.Contains(t, view.OtherSideWords(&with, wrong), "stroke 5, 1.10 in right; stroke 6, 1.20 in right")
	assert.Empty(t, view.OtherSideWords(&m, wrong), "they are gone")
	moved := app.Update(with, app.MoveAcross{Strokes: wrong})
	assert.Equal(t, []string{"-1.1in", "-1.2in"}, []string{moved.Kept.Strokes[4].Mark, moved.Kept.Strokes[5].Mark})
	back := app.Update(moved, app.Undo{})
	assert.Equal(t, with.Kept, back.Kept)
	assert.NotEmpty(t, app.Update(m, app.MoveAcross{Strokes: wrong}).Notices)
}

// Every stroke that was marked is in the band that is drawn for it here, as they were
// made without scatter; the cue that squirts more has the band further out; and the
// band of the current shot is that of the same shot already played.
func TestBands(t *testing.T) {
	start := after(app.Open{Link: "v=1&speed=12mph&elev=1deg"}, app.OpenSection{Name: "measure"})
	var noted []app.Event
	for range 2 {
		noted = append(noted, parallel("House 4", "0.4", "-1.5in")...)
		noted = append(noted, parallel("House 4", "-0.4", "1.5in")...)
		noted = append(noted, parallel("Slender", "-0.4", "0.6in")...)
		noted = append(noted, parallel("Slender", "0.4", "-0.6in")...)
	}
	m, s := sat(t, start, noted...)
	always := func() bool { return true }
	bands := view.Bands(&m, s, always)
	assert.Len(t, bands, 4, "to either side with either cue: those of the current shot once")
	var here int
	for _, b := range bands {
		played := 1.5 * unit.Inch
		if s.Cues[b.Cue] == "Slender" {
			played = 0.6 * unit.Inch
		}
		if b.From+b.To < 0 {
			played = -played
		}
		assert.Less(t, b.From, played)
		assert.Greater(t, b.To, played)
		assert.InDelta(t, float64(30*unit.Inch), float64(b.Line), 1e-9)
		if b.Next {
			here++
			assert.Negative(t, b.To, "right english squirts to the left")
		}
	}
	assert.Equal(t, 2, here)
	assert.Nil(t, view.Bands(&m, s, func() bool { return false }))
	shown := app.Update(m, app.Expect{Bands: bands})
	assert.Equal(t, bands, shown.OnSheet().Bands)
}

// The answer to which cue squirts less is followed stroke by stroke, and grows surer.
func TestTheAnswerGrows(t *testing.T) {
	start := after(app.Open{Link: "v=1&speed=12mph&elev=1deg"})
	noted := append(parallel("House 4", "0.4", "-1.5in"), parallel("House 4", "-0.4", "1.5in")...)
	_, alone := sat(t, start, noted...)
	assert.Empty(t, alone.Grown)
	for range 3 {
		noted = append(noted, parallel("Slender", "-0.4", "0.6in")...)
		noted = append(noted, parallel("Slender", "0.4", "-0.6in")...)
	}
	_, s := sat(t, start, noted...)
	require.Len(t, s.Grown, 1)
	g := s.Grown[0]
	assert.Equal(t, []int{0, 1}, []int{g.A, g.B})
	assert.Len(t, g.Less, 6, "one for each stroke since both had one")
	assert.Less(t, g.Less[5], g.Less[0])
	assert.InDelta(t, s.Post.Compare(0, 1).Less, g.Less[5], 1e-12)
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
	assert.Equal(t, view.Estimate{Why: f.Head}, f.Exact)
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

// What an empty field for a mark shows can be typed there.
func TestMarkExample(t *testing.T) {
	for _, units := range []string{"in", "cm"} {
		marks, err := store.ReadLengths(view.MarkExample(units), units)
		require.NoError(t, err)
		assert.InDelta(t, -1.875*float64(unit.Inch), float64(marks[0]), 1e-3, units)
	}
}
