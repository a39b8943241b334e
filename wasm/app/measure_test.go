package app_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

func TestMeasureCue(t *testing.T) {
	m := app.Update(app.Start(), app.MeasureCue{Name: " House\u00a04\t"})
	assert.Equal(t, "House 4", m.Measuring)
	assert.False(t, m.CanUndo(), "picking a cue is no step by itself")
	long := app.Update(m, app.MeasureCue{Name: strings.Repeat("a", 61)})
	assert.Equal(t, "House 4", long.Measuring)
	assert.Contains(t, long.Notices[0], "cue: ")
	assert.Empty(t, app.Update(long, app.MeasureCue{}).Measuring)

	// Undo brings back the cue that what it takes back was done with.
	m = app.Update(m, app.Set{Key: "bridge", Text: "9in"})
	m = app.Update(m, app.MeasureCue{Name: "House 7"})
	assert.Equal(t, "House 7", m.Measuring)
	m = app.Update(m, app.NoteStroke{Cue: m.Measuring, See: "left"})
	m = app.Update(m, app.MeasureCue{Name: "House 9"})
	m = app.Update(m, app.Undo{})
	assert.Equal(t, "House 7", m.Measuring)
	assert.Empty(t, m.Kept.Strokes)
	m = app.Update(m, app.Undo{})
	assert.Equal(t, "House 4", m.Measuring)
	m = app.Update(app.Update(m, app.Redo{}), app.Redo{})
	assert.Equal(t, "House 9", m.Measuring)
	assert.Len(t, m.Kept.Strokes, 1)
}

// A new visit goes on with the cue of the newest stroke, so that its answer is there.
func TestAVisitGoesOnWithTheNewestCue(t *testing.T) {
	kept := store.Records{Strokes: []store.Stroke{{Cue: "House 4", Link: "v=1", See: "left"}, {Cue: "House 7", Link: "v=1", See: "clean"}}}
	assert.Equal(t, "House 7", app.Update(app.Start(), app.Restore{Kept: kept}).Measuring)
	assert.Empty(t, app.Update(app.Start(), app.Restore{}).Measuring)
}

// A cue that is renamed in the middle of a sitting is renamed everywhere, in one
// step, whatever else is under way.
func TestRenameCue(t *testing.T) {
	m := inTurn(t)
	m = app.Update(m, app.Set{Key: "name", Text: "House 4"})
	m = app.Update(m, app.SaveCue{Cue: store.Typed(&m.Scene, "now")})
	beside := m.Scene.OnBench()
	m = app.Update(m, app.Compare{Cues: []scenario.CueSpec{beside, beside}})
	m = app.Update(m, app.SaveCue{Cue: store.CueRecord{Name: "House 7", How: "none", Link: "v=1"}})
	m = app.Update(m, app.MeasureCue{Name: "House 4"})
	m = app.Update(m, app.ShowRecords{Cue: store.CueKey("House 4")})
	m = app.Update(m, app.OpenCueForm{Cue: m.Kept.Cues[0]})

	renamed := app.Update(m, app.RenameCue{Was: "house 4", Name: " Low\u00a01"})
	assert.Empty(t, renamed.Notices)
	assert.Equal(t, []string{"Low 1", "House 7", "Low 1", ""}, cues(&renamed))
	assert.Equal(t, []string{"Low 1", "House 7"}, []string{renamed.Kept.Cues[0].Name, renamed.Kept.Cues[1].Name})
	assert.Equal(t, "Low 1", renamed.Measuring)
	assert.Equal(t, "Low 1", renamed.Scene.Name)
	assert.Equal(t, "Low 1", renamed.Scene.More[1].Name)
	assert.False(t, renamed.InGesture())
	assert.Equal(t, store.CueKey("Low 1"), renamed.OpenedCue, "its records stay in sight")
	saved := app.Update(renamed, app.SaveCueForm{Cue: renamed.CueForm.Cue})
	assert.Empty(t, saved.Notices, "the form is still of that record")
	assert.Len(t, saved.Kept.Cues, 2)
	assert.Equal(t, []string{"House 4", "House 7", "house 4", ""}, cues(&m), "a list is never changed in place")

	undone := app.Update(renamed, app.Undo{})
	assert.Equal(t, []any{m.Kept, m.Scene, m.Measuring}, []any{undone.Kept, undone.Scene, undone.Measuring})
	again := app.Update(undone, app.Redo{})
	assert.Equal(t, []any{renamed.Kept, renamed.Scene, renamed.Measuring}, []any{again.Kept, again.Scene, again.Measuring})

	// While one of its strokes is corrected.
	editing := app.Update(m, app.EditStroke{Stroke: m.Kept.Strokes[0]})
	editing = app.Update(editing, app.RenameCue{Was: "House 4", Name: "Low 1"})
	require.True(t, editing.Correction.On)
	done := app.Update(editing, app.NoteStroke{Cue: editing.Measuring, See: "clean"})
	assert.Equal(t, []string{"Low 1", "House 7", "Low 1", ""}, cues(&done))
	assert.Equal(t, "clean", done.Kept.Strokes[0].See)
	assert.Equal(t, "Low 1", done.Measuring)
	assert.Equal(t, "Low 1", done.Scene.Name, "on the bench too, which comes back")

	same := app.Update(renamed, app.RenameCue{Was: "Low 1", Name: "Low 1"})
	assert.Equal(t, len(renamed.Past), len(same.Past), "that is no step")
	fresh := app.Update(app.Update(m, app.MeasureCue{Name: "House 9"}), app.RenameCue{Was: "House 9", Name: "House 10"})
	assert.Equal(t, "House 10", fresh.Measuring, "a cue that has no strokes yet")
	assert.Equal(t, m.Kept, fresh.Kept)
	for _, e := range []app.RenameCue{{Was: "House 99", Name: "b"}, {Was: "House 4", Name: strings.Repeat("a", 61)}} {
		refused := app.Update(m, e)
		assert.Equal(t, m.Kept, refused.Kept)
		assert.NotEmpty(t, refused.Notices)
	}
}

// A cue without a name gets one: its strokes do, but records without a name are
// of cues of their own.
func TestNameCue(t *testing.T) {
	m := inTurn(t)
	m = app.Update(m, app.SaveCue{Cue: store.CueRecord{How: "none", Link: "v=1"}})
	named := app.Update(m, app.RenameCue{Name: "House 9"})
	assert.Equal(t, []string{"House 4", "House 7", "house 4", "House 9"}, cues(&named))
	assert.Equal(t, m.Kept.Cues, named.Kept.Cues)
	assert.Equal(t, m.Scene, named.Scene)
	assert.Equal(t, "House 9", named.Measuring)
	assert.Equal(t, app.Correction{}, named.Correction)
}

// A cue that another tab renames keeps being measured in this one.
func TestRenamedElsewhere(t *testing.T) {
	m := app.Update(inTurn(t), app.MeasureCue{Name: "House 7"})
	there := app.Update(m, app.RenameCue{Was: "House 7", Name: "Low 1"})
	here := app.Update(m, app.Elsewhere{Base: m.Kept, Kept: there.Kept})
	assert.Equal(t, "Low 1", here.Measuring)
	assert.Equal(t, there.Kept, here.Kept)

	gone := app.Update(m, app.ClearStrokes{Cue: "House 7"})
	assert.Equal(t, "House 7", app.Update(m, app.Elsewhere{Base: m.Kept, Kept: gone.Kept}).Measuring)
	m = app.Update(m, app.NoteStroke{Cue: "House 7", See: "clean"})
	moved := m.Kept.Strokes[1]
	moved.Cue = "House 4"
	there = app.Update(m, app.ChangeStroke{Was: m.Kept.Strokes[1], Stroke: moved})
	assert.Equal(t, "House 7", app.Update(m, app.Elsewhere{Base: m.Kept, Kept: there.Kept}).Measuring, "it has another stroke still")
}
