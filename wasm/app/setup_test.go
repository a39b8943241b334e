package app_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/sitting"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// How well the set-up is known is what the user says, within limits, and comes back.
func TestHowSureTheSetUpIs(t *testing.T) {
	m := app.Start()
	assert.Equal(t, sitting.Habit, m.SetUp)
	m = app.Update(m, app.SetSure{Key: "elevation", Text: "0.3 deg"})
	m = app.Update(m, app.SetSure{Key: "bridge", Text: "1/8"})
	assert.Empty(t, m.Notices)
	assert.InDelta(t, 0.3, float64(m.SetUp.Elevation/unit.Degree), 1e-12)
	assert.InDelta(t, 0.125, float64(m.SetUp.Bridge/unit.Inch), 1e-12)
	for _, bad := range []app.SetSure{{Key: "elevation", Text: "11"}, {Key: "speed", Text: "-0.1"}, {Key: "slide", Text: "much"}, {Key: "offset", Text: ""}} {
		refused := app.Update(m, bad)
		assert.Equal(t, m.SetUp, refused.SetUp)
		assert.Contains(t, refused.Notices[0], "“"+bad.Text+"” can't be used; allowed: 0 to ")
	}
	again := app.Update(app.Start(), app.Recall{SetUp: app.FormatSetUp(m.SetUp)})
	assert.Equal(t, m.SetUp, again.SetUp)
	for _, junk := range []string{"", "1 2 3", "0.1 0.1 0.1 0.1 NaN", "9 9 9 9 9", "a b c d e"} {
		assert.Equal(t, sitting.Habit, app.Update(app.Start(), app.Recall{SetUp: junk}).SetUp, junk)
	}
	texts := map[string]string{}
	for i := range app.Sures {
		texts[app.Sures[i].Key] = app.Sures[i].Text(sitting.Habit, "in")
	}
	assert.Equal(t, map[string]string{"elevation": "1", "bridge": "0.25", "offset": "0.02", "speed": "15", "slide": "15"}, texts)

	// A bare number of a length is in the units of the scene, as the field shows it.
	cm := app.Update(m, app.Set{Key: "units", Text: "cm"})
	cm = app.Update(cm, app.SetSure{Key: "bridge", Text: "0.8"})
	assert.InDelta(t, 0.008, float64(cm.SetUp.Bridge), 1e-12)
	for i := range app.Sures {
		texts[app.Sures[i].Key] = app.Sures[i].Text(cm.SetUp, cm.Scene.Units)
	}
	assert.Equal(t, map[string]string{"elevation": "0.3", "bridge": "0.8", "offset": "0.02", "speed": "15", "slide": "15"}, texts)
	refused := app.Update(cm, app.SetSure{Key: "bridge", Text: "5.1"})
	assert.Contains(t, refused.Notices[0], "allowed: 0 to 5.08 cm.")
}

// Marks of an older version become strokes of the shot on the bench, played parallel
// to the side that they were noted under, in one step.
func TestMarksOfAnOlderVersionBecomeStrokes(t *testing.T) {
	old := store.Marks{Rail: "50", Right: "-1.9 -2 1/8", Left: "2.4in", OtherRight: "-1"}
	m := app.Update(app.Start(), app.Open{Link: "v=1&speed=12mph&side=-0.3"})
	m = app.Update(app.Update(m, app.SetMarks{Marks: old}), app.MeasureCue{Name: "House 4"})
	taken := app.Update(m, app.TakeMarks{When: "2026-11-24"})
	assert.Empty(t, taken.Notices)
	assert.Zero(t, taken.Kept.Marks)
	var got [][4]string
	for _, k := range taken.Kept.Strokes {
		s := app.Update(app.Start(), app.Open{Link: k.Link}).Scene
		side := "right"
		if s.Side < 0 {
			side = "left"
		}
		assert.Zero(t, s.Back)
		got = append(got, [4]string{k.Cue, side, k.Mark, k.At})
	}
	assert.Equal(t, [][4]string{{"House 4", "right", "-1.9in", "50in"}, {"House 4", "right", "-2.125in", "50in"}, {"House 4", "left", "2.4in", "50in"}, {"other cue", "right", "-1in", "50in"}}, got)
	assert.Equal(t, old, app.Update(taken, app.Undo{}).Kept.Marks)
	for _, bad := range []store.Marks{{Rail: "far", Right: "1"}, {Rail: "50", Right: "1 oops"}, {Rail: "50", Left: "200"}} {
		with := app.Update(m, app.SetMarks{Marks: bad})
		refused := app.Update(with, app.TakeMarks{})
		assert.NotEmpty(t, refused.Notices)
		assert.Equal(t, with.Kept, refused.Kept, "they stay as they are")
	}
}

// The canvas is shown the marks of the list while strokes are being measured.
func TestMarksOnTheSheet(t *testing.T) {
	m := app.Update(app.Start(), app.NoteStroke{Cue: "A", Mark: "-1in", At: "30in", Read: "3mm"})
	m = app.Update(m, app.NoteStroke{Cue: "A", See: "clean"})
	m = app.Update(m, app.NoteStroke{Cue: "B", Mark: "2in", At: "40in", Read: "3mm"})
	assert.Empty(t, m.Mirrored().Marks)
	m = app.Update(m, app.OpenSection{Name: "measure"})
	m = app.Update(m, app.Expect{Bands: []app.Band{{Cue: 1, From: 0.04, To: 0.06, Line: 1.016}, {Cue: 0, From: -0.03, To: -0.01, Line: 0.762, Next: true}}})
	m = app.Update(m, app.MeasureCue{Name: "a & “b”"})
	m = app.Update(m, app.SetMarking{Marking: app.Marking{Text: "-1, 3/4", Line: "32"}})
	canvas := app.Update(app.Start(), m.Mirrored())
	shown := canvas.OnSheet()
	assert.Equal(t, []string{"A", "B", "a & “b”"}, shown.Cues)
	assert.Equal(t, []app.Marked{{Cue: 0, At: -0.0254, Line: 0.762}, {Cue: 1, At: 0.0508, Line: 1.016}}, shown.Marks)
	assert.Equal(t, m.Bands, shown.Bands)
	assert.Equal(t, 2, shown.Placed.Cue)
	assert.InDelta(t, 0.75*0.0254, float64(shown.Placed.At), 1e-4, "the last of those typed")
	assert.InDelta(t, 32*0.0254, float64(shown.Placed.Line), 1e-4)
	assert.Equal(t, m.Mirrored().Marks, canvas.Mirrored().Marks)

	for _, junk := range []string{"junk", "mark=0 1 1", "cue=A&mark=0 1", "cue=A&mark=a b c", "cue=A&mark=-1 0 1", "cue=A&band=0 1e9 0 1 true", "cue=A&placed=0 0 0", "cue=A&band=1 0 0 1"} {
		shown := app.Update(app.Start(), app.Mirror{Marks: junk})
		on := shown.OnSheet()
		assert.Empty(t, on.Marks, junk)
		assert.Empty(t, on.Bands, junk)
		assert.Zero(t, on.Placed, junk)
	}
}

// What an instrument has read narrows the set-up of the sitting it was read in, and no
// other. What the user says counts for all sittings, and for this one instead of the
// reading.
func TestAReadingBelongsToItsSitting(t *testing.T) {
	evening := func(m app.Model, day string, events ...app.Event) app.Model {
		m = app.Update(m, app.Clocked{When: "2026-11-" + day + "T19:00:00+01:00"})
		for _, e := range events {
			m = app.Update(m, e)
			assert.Empty(t, m.Notices)
		}
		return app.Update(m, app.NoteStroke{See: "clean", When: "2026-11-" + day + "T19:10:00+01:00"})
	}
	read := func(degrees float64, when string) app.Event {
		return app.UseReading{Sure: []app.Sureness{{Key: "elevation", Error: degrees * float64(unit.Degree)}}, When: when}
	}
	m := evening(app.Start(), "24", read(0.3, "2026-11-24T18:05:00Z"), read(0.5, "2026-11-24T18:06:00Z"))
	assert.Len(t, m.Kept.Checks, 1, "the worse reading tells nothing new")
	m = evening(m, "25")
	m = evening(m, "26", read(0.2, "2026-11-26T18:05:00Z"))
	degrees := func(m app.Model) (out []float64) {
		for _, s := range m.Sittings() {
			out = append(out, math.Round(1e6*float64(s.SetUp.Elevation/unit.Degree))/1e6)
		}
		return out
	}
	assert.Equal(t, []float64{0.3, 1, 0.2}, degrees(m))
	assert.Equal(t, []float64{0.3, 1, 0.2, 1}, degrees(app.Update(m, app.Clocked{When: "2026-11-27T09:00:00+09:00"})))
	assert.Equal(t, m.Now, app.Update(m, app.Clocked{When: "2026-11-25T09:00:00Z"}).Now, "time does not go back")

	said := app.Update(m, app.SetSure{Key: "elevation", Text: "0.6"})
	assert.Equal(t, []float64{0.3, 0.6, 0.6}, degrees(said))
	assert.Equal(t, degrees(m), degrees(app.Update(said, app.Undo{})), "in one step")
	assert.Equal(t, m.Past, app.Update(m, app.SetSure{Key: "elevation", Text: "0.2"}).Past, "nothing changes")
}

// The next stroke belongs to the sitting that goes on. Until it is played the newest one
// with strokes is shown.
func TestSittingsGoOnUntilAPause(t *testing.T) {
	m := app.Start()
	assert.Equal(t, []app.Sitting{{SetUp: sitting.Habit, On: true}}, m.Sittings())
	assert.Zero(t, app.Shown(m.Sittings()))
	note := func(when string) {
		m = app.Update(m, app.NoteStroke{Mark: "-1in", At: "30in", Read: "3mm", When: when})
		assert.Empty(t, m.Notices)
	}
	note("")
	note("2026-11-24T19:00:00Z")
	note("2026-11-24T20:00:00Z")
	all := m.Sittings()
	assert.Equal(t, []app.Sitting{{Strokes: []int{0}, SetUp: sitting.Habit}, {Strokes: []int{1, 2}, SetUp: sitting.Habit, On: true}}, all)
	assert.Equal(t, 1, app.Shown(all))
	m = app.Update(m, app.Clocked{When: "2026-11-25T19:00:00Z"})
	all = m.Sittings()
	assert.Len(t, all, 3)
	assert.Equal(t, app.Sitting{SetUp: sitting.Habit, On: true}, all[2])
	assert.Equal(t, 1, app.Shown(all))
	m = app.Update(m, app.OpenSection{Name: "measure"})
	assert.Len(t, m.OnSheet().Marks, 2, "the marks of one sitting")
	note("2026-11-25T19:01:00Z")
	assert.Equal(t, 2, app.Shown(m.Sittings()))
	assert.Len(t, m.OnSheet().Marks, 1)
}
