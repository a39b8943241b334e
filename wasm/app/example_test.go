package app_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// example is the file that the page shows as an example.
func example(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile("../../site/example.json")
	require.NoError(t, err)
	return string(text)
}

// ownPage is a page that its user has worked on.
func ownPage() app.Model {
	m := app.Update(app.Start(), app.First{Link: "v=1&bridge=9in&units=cm"})
	m = app.Update(m, app.MeasureCue{Name: "Mine"})
	m = app.Update(m, app.NoteStroke{Cue: "Mine", See: "clean", When: "2026-11-24T19:01:00Z"})
	return app.Update(m, app.OpenSection{Name: "measure"})
}

// back is what leaving brings back: all but the count of changes.
func back(t *testing.T, m app.Model) app.Model {
	t.Helper()
	out := app.Update(m, app.LeaveExample{})
	assert.Greater(t, out.Changes, m.Changes, "the records shown have changed")
	out.Changes = 0
	return out
}

// Whatever is done in the example, leaving brings one's own page back as it was.
func TestTheExampleLeavesNothing(t *testing.T) {
	own := ownPage()
	was := own
	was.Changes = 0
	m := app.Update(own, app.OpenExample{Units: "cm"})
	assert.True(t, m.InExample())
	assert.Empty(t, m.Kept.Strokes, "nothing of one's own is among the example's")
	assert.Equal(t, was, back(t, m))

	m = app.Update(m, app.ShowExample{Text: example(t)})
	assert.Equal(t, "cues", m.Section)
	assert.Equal(t, "cm", m.Scene.Units, "the user's own units")
	assert.NotZero(t, m.Scene.More[1].Pivot, "cues are compared")
	assert.Equal(t, "Slender", m.Measuring)
	assert.False(t, m.CanUndo())
	for _, e := range []app.Event{
		app.NoteStroke{Cue: "Slender", See: "left", When: "2026-11-25T19:01:00Z"}, app.ClearStrokes{All: true}, app.Set{Key: "bridge", Text: "11in"}, app.Settle{},
		app.SaveCue{Cue: store.Typed(&m.Scene, "2026-11-25T19:01:00Z")}, app.SetGear{Key: "table", Text: "7ft"}, app.SetSure{Key: "bridge", Text: "1"},
		app.TeachOwn{Lesson: m.Kept.Lessons[1]}, app.ReadCautions{}, app.Show{Look: app.Look{Stretch: 1, Theme: "dark"}}, app.Drag{Phase: app.DragStart},
		app.OpenExample{}, app.ShowExample{Text: "{}"},
	} {
		m = app.Update(m, e)
		assert.True(t, m.InExample())
		assert.Equal(t, was, back(t, m), "%T", e)
	}
	assert.Equal(t, own, app.Update(own, app.LeaveExample{}), "nothing to leave")
	assert.Equal(t, own, app.Update(own, app.ShowExample{Text: example(t)}), "it has to be opened first")
}

// A text that can't be read, or that did not come, is said and closes the example.
func TestAnExampleThatDoesNotCome(t *testing.T) {
	own := ownPage()
	for _, text := range []string{"", "{}", `{"v": 3}`, "<!doctype html>"} {
		m := app.Update(app.Update(own, app.OpenExample{}), app.ShowExample{Text: text})
		assert.False(t, m.InExample(), text)
		assert.Len(t, m.Notices, 1)
		assert.Equal(t, own.Kept, m.Kept)
	}
}

// What another tab keeps meanwhile is there on one's own page, and not in the example.
func TestOtherTabsGoToOnesOwnPage(t *testing.T) {
	own := ownPage()
	m := app.Update(app.Update(own, app.OpenExample{}), app.ShowExample{Text: example(t)})
	theirs := own.Kept
	theirs.Lessons = m.Kept.Lessons[:1]
	next := app.Update(m, app.Elsewhere{Base: own.Kept, Kept: theirs})
	assert.Equal(t, m.Kept, next.Kept)
	home := back(t, next)
	assert.Equal(t, theirs, home.Kept)
}

// A link that brings the user something is opened on his own page.
func TestWhatIsBroughtIsNotTheExamples(t *testing.T) {
	m := app.Update(app.Update(ownPage(), app.OpenExample{}), app.ShowExample{Text: example(t)})
	cue := m.Kept.Cues[0]
	m = app.Update(m, app.Bring{Link: cue.Fragment()})
	assert.False(t, m.InExample())
	assert.True(t, m.Offer.On)
	assert.Len(t, m.Kept.Strokes, 1)
}

// A reload within the example comes back to it, with one's own page behind it; if it does
// not arrive then, the own page is there as it was left.
func TestTheExampleComesBack(t *testing.T) {
	own := app.Update(ownPage(), app.OpenCueForm{New: true})
	fields := []app.Field{{Name: "cue-notes", Text: "half a & note"}}
	m := app.Update(app.Update(own, app.OpenExample{Units: "cm", Fields: fields}), app.ShowExample{Text: example(t)})
	m = app.Update(m, app.TeachOwn{Lesson: m.Kept.Lessons[2]})
	m = app.Update(m, app.OpenSection{Name: "lessons"})
	text := m.Visit("in", []app.Field{{Name: "mark-text", Text: "1"}})
	visit := app.ParseVisit(text.Format())
	assert.Equal(t, text, visit)

	again := app.Update(app.Start(), app.First{Link: m.Settled.Format()})
	again = app.Update(again, app.Restore{Kept: own.Kept})
	again = app.Update(again, app.Return{Visit: visit})
	require.True(t, again.InExample())
	assert.Empty(t, again.Kept.Strokes, "no mix while it loads")
	assert.Equal(t, m.Settled, again.Settled)
	assert.Equal(t, fields, again.Home.Visit.Fields)
	home := app.Update(again, app.ShowExample{})
	for _, m := range []app.Model{home, app.Update(app.Update(again, app.ShowExample{Text: example(t), Visit: visit}), app.LeaveExample{})} {
		assert.Equal(t, own.Settled, m.Settled)
		assert.Equal(t, own.Kept, m.Kept)
		assert.Equal(t, "measure", m.Section)
		assert.Equal(t, "Mine", m.Measuring)
		assert.True(t, m.CueForm.On)
		assert.False(t, m.CanUndo())
	}
	again = app.Update(again, app.ShowExample{Text: example(t), Visit: visit})
	assert.Equal(t, m.Visit("in", visit.Fields), again.Visit("in", visit.Fields))
	assert.Equal(t, m.Kept, again.Kept)
	assert.True(t, again.Own)

	odd := visit
	odd.Home = visit.Format() // not a page of one's own
	left := app.Update(app.Update(app.Start(), app.Return{Visit: odd}), app.LeaveExample{})
	assert.False(t, left.InExample())
}
