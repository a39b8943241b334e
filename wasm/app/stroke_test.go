package app_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// inTurn is a model in which House 4 and House 7 are measured in turn, at a gate and
// by marks.
func inTurn(t *testing.T) app.Model {
	t.Helper()
	m := app.Update(app.Start(), app.Open{Link: "v=1&bridge=9in&speed=12mph"})
	for _, e := range []app.NoteStroke{
		{Cue: "House 4", See: "left", When: "1"},
		{Cue: "House 7", Mark: "-1.9in", At: "30in", Read: "3mm", When: "2"},
		{Cue: "house 4", Mark: "-1 31/32 in", At: "76 cm", Read: "1mm", When: "3"},
		{See: "clean", When: "4"},
	} {
		m = app.Update(m, app.MeasureCue{Name: e.Cue})
		m = app.Update(m, e)
		require.Empty(t, m.Notices)
	}
	require.Len(t, m.Kept.Strokes, 4)
	return m
}

// cues are those of the strokes, in their order.
func cues(m *app.Model) (names []string) {
	for _, k := range m.Kept.Strokes {
		names = append(names, k.Cue)
	}
	return names
}

func TestStrokesAreNoted(t *testing.T) {
	m := inTurn(t)
	link := m.Scene.Format()
	assert.Equal(t, []store.Stroke{
		{Cue: "House 4", Link: link, See: "left", When: "1"},
		{Cue: "House 7", Link: link, Mark: "-1.9in", At: "30in", Read: "3mm", When: "2"},
		{Cue: "house 4", Link: link, Mark: "-1 31/32 in", At: "76 cm", Read: "1mm", When: "3"},
		{Link: link, See: "clean", When: "4"},
	}, m.Kept.Strokes)
	for left := 3; left >= 0; left-- {
		m = app.Update(m, app.Undo{})
		assert.Len(t, m.Kept.Strokes, left, "each is undone by itself")
	}
}

// A stroke that can't have been is not noted, and the reason is said; nor does
// one that is being corrected become such a one.
func TestStrokesThatCantHaveBeen(t *testing.T) {
	for _, c := range []struct {
		link  string
		noted app.NoteStroke
		want  string
	}{
		{"v=1", app.NoteStroke{}, "a stroke needs what the ball hit"},
		{"v=1", app.NoteStroke{See: "sideways"}, "“sideways”, allowed: left, clean, right"},
		{"v=1", app.NoteStroke{See: "left", Mark: "1in", At: "30in", Read: "3mm"}, "a stroke can't have both"},
		{"v=1", app.NoteStroke{Mark: "51in", At: "30in", Read: "3mm"}, "mark “51in”, allowed: up to 50.0 in"},
		{"v=1", app.NoteStroke{Mark: "1in", At: "30in", Read: "0mm"}, "(read) “0mm”, allowed: more than 0"},
		{"v=1", app.NoteStroke{Mark: "1in", At: "0in", Read: "3mm"}, "(at) “0in”, allowed: more than 0"},
		{"v=1", app.NoteStroke{Mark: "1", At: "30in", Read: "3mm"}, "mark: “1” is not a length"},
		{"v=1", app.NoteStroke{Cue: strings.Repeat("a", 61), See: "clean"}, "cue: "},
		{"v=1&speed=0.4mph&roll=0.05", app.NoteStroke{See: "clean"}, "does not reach the line; bridge 12.0 in; grip 30.0 in; speed 0.4 mph; gate 30.0 in."},
		{"v=1&speed=0.4mph&roll=0.05", app.NoteStroke{Mark: "1in", At: "90in", Read: "3mm"}, "speed 0.4 mph; line 90in."},
	} {
		noted := app.Update(app.Start(), app.NoteStroke{See: "left"})
		m := app.Update(noted, app.Open{Link: c.link})
		refused := app.Update(m, c.noted)
		assert.Equal(t, noted.Kept, refused.Kept, c.want)
		require.NotEmpty(t, refused.Notices, c.want)
		assert.True(t, strings.HasPrefix(refused.Notices[0], "Not noted: "))
		assert.Contains(t, refused.Notices[0], c.want)

		editing := app.Update(noted, app.EditStroke{Stroke: noted.Kept.Strokes[0]})
		editing = app.Update(editing, app.Open{Link: c.link})
		kept := app.Update(editing, c.noted)
		assert.Equal(t, noted.Kept, kept.Kept, c.want)
		assert.True(t, kept.Correction.On, "it can be set right still")
	}
	near := app.Update(app.Start(), app.Open{Link: "v=1&speed=0.4mph&roll=0.05"})
	assert.Len(t, app.Update(near, app.NoteStroke{Mark: "0in", At: "0.5in", Read: "3mm"}).Kept.Strokes, 1, "a line that this ball does reach")
}

// Whose stroke is being corrected is the cue that is measured meanwhile.
func TestCorrectionKnowsItsCue(t *testing.T) {
	m := inTurn(t)
	m = app.Update(m, app.Set{Key: "bridge", Text: "11in"})
	m = app.Update(m, app.MeasureCue{Name: "House 9"})
	bench := m.Scene
	editing := app.Update(m, app.EditStroke{Stroke: m.Kept.Strokes[1]})
	assert.Equal(t, "House 7", editing.Measuring)
	assert.Equal(t, 9*unit.Inch, editing.Scene.Bridge)

	left := app.Update(editing, app.LeaveStroke{})
	assert.Equal(t, "House 9", left.Measuring)
	assert.Equal(t, bench, left.Scene)

	other := app.Update(editing, app.EditStroke{Stroke: m.Kept.Strokes[0]})
	assert.Equal(t, "House 4", other.Measuring)
	assert.Equal(t, "House 9", app.Update(other, app.LeaveStroke{}).Measuring)

	// It was another cue's, and seen at the gate.
	done := app.Update(editing, app.MeasureCue{Name: "House 4"})
	done = app.Update(done, app.NoteStroke{Cue: done.Measuring, See: "right", When: "later"})
	assert.Empty(t, done.Notices)
	assert.Equal(t, store.Stroke{Cue: "House 4", Link: m.Kept.Strokes[1].Link, See: "right", When: "2"}, done.Kept.Strokes[1])
	assert.Len(t, done.Kept.Strokes, 4)
	assert.Equal(t, "House 9", done.Measuring)
	assert.Equal(t, bench, done.Scene)
	for len(done.Past) > len(m.Past) {
		done = app.Update(done, app.Undo{})
	}
	assert.Equal(t, m.Kept, done.Kept)
	assert.Equal(t, "House 9", done.Measuring)
}

func TestClearStrokes(t *testing.T) {
	m := inTurn(t)
	for _, c := range []struct {
		clear app.ClearStrokes
		left  []string
	}{
		{app.ClearStrokes{Cue: "HOUSE 4 "}, []string{"House 7", ""}},
		{app.ClearStrokes{Cue: "House 7"}, []string{"House 4", "house 4", ""}},
		{app.ClearStrokes{}, []string{"House 4", "House 7", "house 4"}},
		{app.ClearStrokes{All: true}, nil},
	} {
		cleared := app.Update(m, c.clear)
		assert.Equal(t, c.left, cues(&cleared), "%v", c.clear)
		assert.Equal(t, m.Kept, app.Update(cleared, app.Undo{}).Kept)
		assert.Equal(t, cleared, app.Update(cleared, c.clear), "there is nothing to clear, nor to undo")
	}
	assert.Len(t, m.Kept.Strokes, 4, "a list is never changed in place")
}
