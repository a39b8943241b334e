package app_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/core/sitting"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// noted is a model with some strokes, a cue and marks.
func noted(t *testing.T) app.Model {
	t.Helper()
	m := app.Start()
	for i, o := range store.Outcomes {
		m = app.Update(m, app.Set{Key: "bridge", Text: strconv.Itoa(9+i) + "in"})
		m = app.Update(m, app.NoteStroke{See: o, When: "2026-11-24T19:00:00Z"})
	}
	m = app.Update(m, app.Set{Key: "name", Text: "House 4, “thin”"})
	m = app.Update(m, app.SaveCue{Cue: store.Typed(&m.Scene, "2026-11-24T19:30:00Z")})
	m = app.Update(m, app.SetMarks{Marks: store.Marks{Rail: "50 in", Right: "-1.9 -2.1", Left: "2 2.2"}})
	require.Empty(t, m.Notices)
	require.Len(t, m.Kept.Strokes, 3)
	return m
}

func TestStrokesAreUndone(t *testing.T) {
	m := noted(t)
	deleted := app.Update(m, app.Drop[store.Stroke]{Record: m.Kept.Strokes[0]})
	assert.Len(t, deleted.Kept.Strokes, 2)
	assert.Equal(t, m.Kept.Strokes[1:], deleted.Kept.Strokes)
	right := m.Kept.Strokes[1]
	right.See = "left"
	changed := app.Update(m, app.ChangeStroke{Was: m.Kept.Strokes[1], Stroke: right})
	assert.Equal(t, "left", changed.Kept.Strokes[1].See)
	assert.Equal(t, "clean", m.Kept.Strokes[1].See, "a list is never changed in place")
	for _, after := range []app.Model{deleted, changed, app.Update(m, app.ClearStrokes{All: true}), app.Update(m, app.Drop[store.CueRecord]{Record: m.Kept.Cues[0]})} {
		undone := app.Update(after, app.Undo{})
		assert.Equal(t, m.Kept, undone.Kept)
		assert.Equal(t, after.Kept, app.Update(undone, app.Redo{}).Kept)
	}
	for _, e := range []app.Event{
		app.Drop[store.Stroke]{}, app.ChangeStroke{Was: right, Stroke: right}, app.ChangeStroke{Was: m.Kept.Strokes[0], Stroke: store.Stroke{Link: "v=1", See: "gone"}},
		app.Drop[store.CueRecord]{}, app.NoteStroke{See: "sideways"}, app.EditStroke{}, app.Drop[store.Reading]{}, app.Drop[store.Table]{}, app.Drop[lesson.Lesson]{}, app.TeachOwn{}, app.OpenCueForm{},
	} {
		after := app.Update(m, e)
		assert.Equal(t, m.Kept, after.Kept, "%#v", e)
		assert.NotEmpty(t, after.Notices, "%#v", e)
	}
}

// A stroke that is being corrected is known by what it says: a deletion of another
// one does not make the correction land elsewhere.
func TestCorrection(t *testing.T) {
	m := noted(t)
	strokes := m.Kept.Strokes
	bench := m.Scene
	editing := app.Update(m, app.EditStroke{Stroke: strokes[1]})
	assert.Equal(t, 10*unit.Inch, editing.Scene.Bridge)
	for _, first := range []app.Event{app.Drop[store.Stroke]{Record: strokes[0]}, app.Elsewhere{Base: m.Kept, Kept: store.Records{Strokes: strokes[1:]}}} {
		after := app.Update(editing, first)
		after = app.Update(after, app.Set{Key: "bridge", Text: "10.5in"})
		after = app.Update(after, app.NoteStroke{See: "left", When: "later"})
		assert.Empty(t, after.Notices)
		assert.Equal(t, strokes[2], after.Kept.Strokes[1], "%#v", first)
		assert.Equal(t, "left", after.Kept.Strokes[0].See)
		assert.Contains(t, after.Kept.Strokes[0].Link, "bridge=10.5in")
		assert.Equal(t, strokes[1].When, after.Kept.Strokes[0].When)
		assert.Equal(t, bench, after.Scene, "what was on the bench comes back")
		assert.False(t, after.Correction.On)
	}
	// Deleted meanwhile: said, and the bench comes back.
	gone := app.Update(editing, app.Drop[store.Stroke]{Record: strokes[1]})
	assert.False(t, gone.Correction.On)
	assert.NotEmpty(t, gone.Notices)
	assert.Equal(t, bench, gone.Scene)
	// Changed meanwhile, in another tab: the correction is of what it is now.
	other := strokes[1]
	other.See = "right"
	changed := app.Update(editing, app.Elsewhere{Base: m.Kept, Kept: store.Records{Strokes: []store.Stroke{strokes[0], other, strokes[2]}}})
	assert.Equal(t, other, changed.Correction.Stroke)
	left := app.Update(editing, app.LeaveStroke{})
	assert.Equal(t, bench, left.Scene)
	assert.Equal(t, m.Kept, left.Kept)
}

// A stroke whose ball can't come to the gate is not noted, and the reason is said.
func TestImpossibleStroke(t *testing.T) {
	m := app.Update(app.Start(), app.Open{Link: "v=1&speed=0.4mph&roll=0.05"})
	m = app.Update(m, app.NoteStroke{See: "clean"})
	assert.Empty(t, m.Kept.Strokes)
	require.Len(t, m.Notices, 1)
	assert.Contains(t, m.Notices[0], sitting.ErrNoCrossing.Error())
}

func TestUseCue(t *testing.T) {
	m := noted(t)
	cue := m.Scene.OnBench()
	m = app.Update(m, app.Set{Key: "pivot", Text: "19in"})
	m = app.Update(m, app.Set{Key: "name", Text: "another"})
	m = app.Update(m, app.UseCue{Cue: cue, TipWidth: 12 * unit.Millimetre, Chalk: 0.5})
	assert.Equal(t, 12*unit.Inch, m.Scene.Pivot)
	assert.Equal(t, "House 4, “thin”", m.Scene.Name)
	assert.Equal(t, 12*unit.Millimetre, m.Scene.TipWidth)
	assert.Equal(t, 0.5, m.Scene.Chalk)
	assert.Equal(t, 11*unit.Inch, m.Scene.Bridge, "the shot stays")
	assert.Equal(t, 19*unit.Inch, app.Update(m, app.Undo{}).Scene.Pivot)
}

// Cues beside the one on the bench travel in the link, and one more is no room
// for.
func TestCompare(t *testing.T) {
	m := app.Start()
	cue := m.Scene.OnBench()
	cue.Name = "Low, 1"
	cues := []scenario.CueSpec{cue, cue, cue, cue, cue, cue}
	m = app.Update(m, app.Compare{Cues: cues})
	assert.Equal(t, [5]scenario.CueSpec(cues[:5]), m.Scene.More)
	back, problems := scenario.Parse(m.Settled.Format())
	assert.Empty(t, problems)
	assert.Equal(t, m.Scene, back)
	fewer := app.Update(m, app.Compare{Cues: cues[:1]})
	assert.Equal(t, [5]scenario.CueSpec{cue}, fewer.Scene.More)
	assert.Equal(t, m.Scene, app.Update(fewer, app.Undo{}).Scene)
}

func TestChangeCue(t *testing.T) {
	m := noted(t)
	was := m.Kept.Cues[0]
	renamed := was
	renamed.Name = "House 5"
	changed := app.Update(app.Update(m, app.OpenCueForm{Cue: was}), app.SaveCueForm{Cue: renamed})
	assert.Equal(t, []store.CueRecord{renamed}, changed.Kept.Cues)
	assert.False(t, changed.CueForm.On)
	assert.Equal(t, was, m.Kept.Cues[0], "a list is never changed in place")
	assert.Equal(t, m.Kept, app.Update(changed, app.Undo{}).Kept)

	// The record that is edited is known by what it says, wherever it stands.
	two := app.Update(m, app.SaveCue{Cue: store.CueRecord{Name: "House 9", How: "none", Link: "v=1"}})
	nine := two.Kept.Cues[1]
	renamed = nine
	renamed.Name = "House 10"
	editing := app.Update(two, app.OpenCueForm{Cue: nine})
	moved := app.Update(app.Update(editing, app.Drop[store.CueRecord]{Record: was}), app.SaveCueForm{Cue: renamed})
	assert.Equal(t, []store.CueRecord{renamed}, moved.Kept.Cues)
	// Deleted meanwhile: what was typed is kept all the same, and said.
	gone := app.Update(app.Update(editing, app.Drop[store.CueRecord]{Record: nine}), app.SaveCueForm{Cue: renamed})
	assert.Equal(t, []store.CueRecord{was, renamed}, gone.Kept.Cues)
	assert.NotEmpty(t, gone.Notices)
	// A fault is said, and the form stays open.
	bad := renamed
	bad.How = "guessed"
	refused := app.Update(editing, app.SaveCueForm{Cue: bad})
	assert.Equal(t, two.Kept, refused.Kept)
	assert.True(t, refused.CueForm.On)
	assert.NotEmpty(t, refused.Notices)
}

// Another tab's records are not taken back by undo here, and no step of undo
// is left that would do nothing.
func TestElsewhere(t *testing.T) {
	m := noted(t) // bridge 9, stroke, 10, stroke, 11, stroke, name, cue, marks
	m = app.Update(app.Update(m, app.Drop[store.Stroke]{Record: m.Kept.Strokes[0]}), app.Undo{})
	require.Len(t, m.Future, 1)
	theirs := store.Records{Strokes: m.Kept.Strokes[:1]}
	m = app.Update(m, app.Elsewhere{Base: m.Kept, Kept: theirs})
	assert.Equal(t, theirs, m.Kept)
	assert.Empty(t, m.Future, "a redo of records alone")
	steps := 0
	for ; len(m.Past) > 0; steps++ {
		before := m.Scene
		m = app.Update(m, app.Undo{})
		assert.NotEqual(t, before, m.Scene)
		assert.Equal(t, theirs, m.Kept)
	}
	assert.Equal(t, 4, steps, "three bridges and a name")
	assert.Equal(t, app.Start().Scene, m.Scene)
	for ; len(m.Future) > 0; steps-- {
		m = app.Update(m, app.Redo{})
		assert.Equal(t, theirs, m.Kept)
	}
	assert.Zero(t, steps)
	assert.Equal(t, "House 4, “thin”", m.Scene.Name)
}

// What another tab keeps is added to what is here that it has not seen.
func TestElsewhereLosesNothing(t *testing.T) {
	m := noted(t)
	base := m.Kept
	here := app.Update(m, app.NoteStroke{See: "clean", When: "here"})
	there := app.Update(m, app.NoteStroke{See: "left", When: "there"})
	both := app.Update(here, app.Elsewhere{Base: base, Kept: there.Kept})
	require.Len(t, both.Kept.Strokes, 5)
	assert.Equal(t, []string{"there", "here"}, []string{both.Kept.Strokes[3].When, both.Kept.Strokes[4].When})
	again := app.Update(both, app.Elsewhere{Base: base, Kept: both.Kept})
	assert.Equal(t, both.Kept, again.Kept)
}

// Names with characters that can't be seen are saved as they look.
func TestSavedNamesReadBack(t *testing.T) {
	for _, name := range []string{"House\u00a04", "House\t4", "Ho\u00aduse 4", "👩\u200d🏫", "House\u202f4", "Ho\u200cuse", "a\x00b\n"} {
		m := app.Start()
		m.Scene.Name = name // as a field has it
		m = app.Update(m, app.SaveCue{Cue: store.Typed(&m.Scene, "now")})
		require.Len(t, m.Kept.Cues, 1, "%q", name)
		k, lost, err := store.Restore(m.Kept.Encode())
		require.NoError(t, err, "%q", name)
		assert.Empty(t, lost)
		assert.Equal(t, m.Kept.Cues, k.Cues)
	}
}

func TestLimitIsSaid(t *testing.T) {
	m := noted(t)
	for len(m.Kept.Strokes) < 5000 {
		m.Kept.Strokes = append(m.Kept.Strokes, m.Kept.Strokes[0])
	}
	full := app.Update(m, app.NoteStroke{See: "clean", When: "one more"})
	assert.Equal(t, m.Kept, full.Kept)
	require.Len(t, full.Notices, 1)
	assert.Contains(t, full.Notices[0], "more than Pivotbench can save: up to 5000")
}

func TestImport(t *testing.T) {
	m := noted(t)
	file := store.Records{Strokes: m.Kept.Strokes[:1], Cues: []store.CueRecord{{Name: "House 9", How: "none", Link: "v=1"}}}
	offered := app.Update(m, app.OfferImport{Name: "pivotbench.json", Kept: file})
	assert.Equal(t, m.Kept, offered.Kept, "nothing is done until it is said what")

	added := app.Update(offered, app.AddImport{})
	assert.Equal(t, m.Kept.Strokes, added.Kept.Strokes, "nothing is doubled")
	assert.Len(t, added.Kept.Cues, 2)
	assert.Equal(t, m.Kept.Marks, added.Kept.Marks)
	assert.False(t, added.Import.On)
	assert.Equal(t, m.Kept, app.Update(added, app.Undo{}).Kept)

	replaced := app.Update(offered, app.ReplaceByImport{})
	assert.Equal(t, file, replaced.Kept)
	assert.True(t, replaced.HasAside)
	assert.Equal(t, m.Kept, replaced.Aside)
	assert.Equal(t, m.Kept, app.Update(replaced, app.BringBack{}).Kept)
	assert.False(t, app.Update(replaced, app.LetGo{}).HasAside)

	log := app.Update(app.Update(m, app.OfferImport{Name: "strokes.csv", Log: true, Kept: file}), app.ReplaceByImport{})
	assert.Equal(t, file.Strokes, log.Kept.Strokes)
	assert.Equal(t, m.Kept.Cues, log.Kept.Cues, "a log leaves the rest as it is")

	empty := app.Update(app.Start(), app.OfferImport{Name: "pivotbench.json", Kept: file})
	assert.Equal(t, file.Cues, empty.Kept.Cues, "with nothing here there is nothing to ask")
	assert.False(t, empty.Import.On)

	left := app.Update(offered, app.DropImport{})
	assert.Equal(t, m.Kept, left.Kept)
	for _, e := range []app.Event{app.AddImport{}, app.ReplaceByImport{}, app.BringBack{}} {
		assert.Equal(t, left, app.Update(left, e), "there is nothing to do it with")
	}
}

// A second import, or bringing back, loses nothing of what the first one replaced.
func TestAsideIsNeverLost(t *testing.T) {
	m := noted(t)
	replace := func(m app.Model, k store.Records) app.Model {
		return app.Update(app.Update(m, app.OfferImport{Kept: k}), app.ReplaceByImport{})
	}
	one := store.Records{Cues: []store.CueRecord{{Name: "House 9", How: "none", Link: "v=1"}}}
	two := store.Records{Cues: []store.CueRecord{{Name: "House 7", How: "none", Link: "v=1"}}}
	twice := replace(replace(m, one), two)
	assert.Equal(t, two, twice.Kept)
	assert.Equal(t, m.Kept.Strokes, twice.Aside.Strokes)
	assert.ElementsMatch(t, append(one.Cues, m.Kept.Cues...), twice.Aside.Cues)

	since := app.Update(replace(m, one), app.NoteStroke{See: "clean", When: "since"})
	back := app.Update(since, app.BringBack{})
	assert.Equal(t, m.Kept, back.Kept)
	assert.Equal(t, since.Kept, back.Aside, "what was noted since the import goes aside")
	assert.Equal(t, since.Kept, app.Update(back, app.BringBack{}).Kept)

	// More than this copy adds to, as an earlier one kept.
	many := m
	for len(many.Kept.Strokes) < 5001 {
		many.Kept.Strokes = append(many.Kept.Strokes, m.Kept.Strokes[0])
	}
	back = app.Update(replace(many, one), app.BringBack{})
	assert.Equal(t, many.Kept, back.Kept)
	assert.Empty(t, back.Notices)
}
