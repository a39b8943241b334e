package app_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
)

func TestTeach(t *testing.T) {
	l := lesson.Lesson{
		Steps:    []lesson.Step{{Link: "bridge=8in"}, {Link: "bridge=20in&object=20in"}},
		Question: lesson.Question{Text: "Where?", Key: "bridge", Goal: lesson.Arrives},
	}
	m := app.Update(app.Start(), app.Set{Key: "side", Text: "0.1"})
	m = app.Update(m, app.Teach{Link: lesson.Link{Lesson: l, At: 1}})
	assert.Equal(t, 20*unit.Inch, m.Scene.Bridge)
	assert.True(t, m.Look.Object, "a step with an object ball of its own shows it")
	assert.Equal(t, m.Scene, m.Settled)

	m = app.Update(m, app.Halt{At: 0})
	assert.Equal(t, 8*unit.Inch, m.Scene.Bridge)
	m = app.Update(m, app.Halt{At: -1})
	assert.Zero(t, m.Lesson.At, "there is nothing before the first")
	m = app.Update(m, app.Halt{At: 99})
	assert.Equal(t, 3, m.Lesson.At)
	_, met, err := l.Question.Try(&m.Scene)
	require.NoError(t, err)
	assert.True(t, met, "the answer is on the bench")

	m = app.Update(m, app.Halt{At: 2})
	before := len(m.Past)
	m = app.Update(m, app.Reply{Value: float64(9 * unit.Inch)})
	m = app.Update(m, app.Reply{Value: float64(10 * unit.Inch), Done: true})
	assert.Equal(t, 10*unit.Inch, m.Settled.Bridge)
	assert.Len(t, m.Past, before+1, "a drag is one gesture")

	again := app.Update(app.Start(), app.Open{Link: m.Settled.Format()})
	again = app.Update(again, app.Reopen{Link: m.Lesson})
	assert.Equal(t, m.Lesson, again.Lesson)
	assert.Equal(t, m.Scene, again.Scene, "the shot is the one that was left")
	again = app.Update(again, app.Reopen{Link: lesson.Link{Lesson: l, At: 99}})
	assert.Equal(t, 3, again.Lesson.At)

	shorter := lesson.Lesson{Steps: l.Steps[:1]}
	revised := app.Update(m, app.Revise{Lesson: shorter})
	assert.True(t, shorter.Equal(&revised.Lesson.Lesson))
	assert.False(t, shorter.Equal(&l))
	assert.Zero(t, revised.Lesson.At, "there is no further stop in it")
	assert.Equal(t, m.Scene, revised.Scene)

	m = app.Update(m, app.EndLesson{})
	assert.Zero(t, m.Lesson.Lesson.Stops())
	assert.Equal(t, "v=1&side=0.1", m.Settled.Format(), "what was on the bench is back")
	assert.False(t, m.Look.Object)
	assert.Zero(t, m.Back)
	m = app.Update(m, app.Undo{})
	assert.Equal(t, 10*unit.Inch, m.Scene.Bridge, "the lesson's last shot can be had")
	for range m.Past {
		m = app.Update(m, app.Undo{})
	}
	assert.Equal(t, app.Start().Scene, m.Scene, "all of it can be undone")
}

// What a class drags is brought to whole steps, so the shot's link stays short.
func TestRepliesAreWholeSteps(t *testing.T) {
	for _, c := range []struct{ units, key, link string }{
		{"in", "bridge", "v=1&bridge=9.1in"},
		{"cm", "bridge", "v=1&bridge=231mm&units=cm"},
		{"in", "back", "v=1&back=0.23&front=0.77"},
	} {
		l := lesson.Lesson{Steps: []lesson.Step{{Link: "v=1"}}, Question: lesson.Question{Text: "Where?", Key: c.key, Goal: lesson.Arrives}}
		m := app.Update(app.Start(), app.Teach{Link: lesson.Link{Lesson: l, Units: c.units}})
		m = app.Update(m, app.Reply{Value: 0.23117, Done: true})
		assert.Equal(t, c.link, m.Settled.Format())
	}
}

func TestTeachKeepsTheReadersUnits(t *testing.T) {
	l := lesson.Lesson{Steps: []lesson.Step{{Link: "bridge=8in"}, {Link: "units=in"}}}
	m := app.Update(app.Start(), app.Set{Key: "units", Text: "cm"})
	m = app.Update(m, app.Teach{Link: lesson.Link{Lesson: l}})
	m = app.Update(m, app.Halt{At: 1})
	assert.Equal(t, "cm", m.Scene.Units)
	m = app.Update(m, app.Teach{Link: lesson.Link{Lesson: l, Units: "in"}})
	assert.Equal(t, "in", m.Scene.Units)
}

func TestNoLessonIsOpen(t *testing.T) {
	m := app.Start()
	for _, e := range []app.Event{app.Teach{}, app.Halt{At: 1}, app.Reply{Value: 1}, app.EndLesson{}} {
		assert.Equal(t, m, app.Update(m, e))
	}
}

func TestOwnLessons(t *testing.T) {
	mine := lesson.Lesson{Title: "Mine", Steps: []lesson.Step{{Link: "v=1", Caption: "a"}}}
	m := app.Update(app.Start(), app.KeepLesson{Lesson: mine})
	require.Equal(t, []lesson.Lesson{mine}, m.Kept.Lessons)
	assert.True(t, m.Own)

	other := mine
	other.Title = "Another"
	m = app.Update(m, app.KeepLesson{Lesson: other})
	changed := mine
	changed.Title = "Yours\u00a0too"
	m = app.Update(app.Update(m, app.TeachOwn{Lesson: mine}), app.EditLesson{Lesson: changed})
	assert.Equal(t, "Yours too", m.Lesson.Lesson.Title, "the open lesson is what is kept")
	assert.Equal(t, []string{"Yours too", "Another"}, []string{m.Kept.Lessons[0].Title, m.Kept.Lessons[1].Title})

	// Undone, it is the lesson before; with another deleted, it is still itself;
	// deleted itself, it is closed and that is said.
	undone := app.Update(m, app.Undo{})
	assert.Equal(t, mine, undone.Lesson.Lesson)
	assert.True(t, undone.Own)
	alone := app.Update(m, app.Drop[lesson.Lesson]{Record: other})
	alone = app.Update(alone, app.EditLesson{Lesson: mine})
	assert.Equal(t, []lesson.Lesson{mine}, alone.Kept.Lessons)
	gone := app.Update(m, app.Drop[lesson.Lesson]{Record: m.Kept.Lessons[0]})
	assert.Zero(t, gone.Lesson)
	assert.False(t, gone.Own)
	assert.NotEmpty(t, gone.Notices)

	bad := mine
	bad.Steps = nil
	for _, e := range []app.Event{app.KeepLesson{Lesson: bad}, app.EditLesson{Lesson: bad}} {
		refused := app.Update(m, e)
		assert.Equal(t, m.Kept, refused.Kept)
		assert.NotEmpty(t, refused.Notices)
	}
	assert.Equal(t, m.Kept, app.Update(app.Update(m, app.EndLesson{}), app.EditLesson{Lesson: mine}).Kept, "no lesson of one's own is open")
}

// A lesson has the bench to itself, and gives it back as it was: after a step that
// brings other balls, another lesson, a reload, or the lesson's deletion elsewhere.
func TestWhatWasOnTheBenchComesBack(t *testing.T) {
	const bench = "v=1&name=House 3&table=snooker&ball=snooker&pivot=9in&bridge=10in&cue2=19in,0.5,540g,10.6mm,0.75,Slender"
	steps := []lesson.Step{{Link: "bridge=8in&gate=0in"}, {Link: "v=1&cut=20deg"}}
	mine := lesson.Lesson{Title: "Mine", Steps: steps}
	on := app.Update(app.Start(), app.Open{Link: bench})
	require.Empty(t, on.Notices)
	taught := app.Update(on, app.Teach{Link: lesson.Link{Lesson: mine, At: 1}})
	assert.True(t, taught.Look.Object)

	closed := app.Update(app.Update(taught, app.Teach{Link: lesson.Link{Lesson: mine}}), app.EndLesson{})
	assert.Equal(t, on.Scene, closed.Scene, "a lesson opened over another one")
	assert.Equal(t, on.Scene, closed.Settled)
	assert.False(t, closed.Look.Object)

	again := app.Update(app.Start(), app.First{Link: taught.Settled.Format()})
	again = app.Update(again, app.Reopen{Link: taught.Lesson, Back: taught.Back})
	assert.Equal(t, on.Scene, app.Update(again, app.EndLesson{}).Scene, "after a reload")

	linked := app.Update(app.Start(), app.Teach{Link: lesson.Link{Lesson: mine, Units: "cm"}})
	assert.Equal(t, app.Start().Scene, app.Update(linked, app.EndLesson{}).Scene, "a link's own units leave with it")

	metric := app.Update(taught, app.Set{Key: "units", Text: "cm"})
	metric = app.Update(metric, app.EndLesson{})
	assert.Equal(t, "cm", metric.Scene.Units, "units that were chosen meanwhile stay")
	assert.Equal(t, on.Scene.Pivot, metric.Scene.Pivot)

	own := app.Update(on, app.KeepLesson{Lesson: mine})
	gone := app.Update(own, app.Elsewhere{Base: own.Kept})
	assert.Zero(t, gone.Lesson)
	assert.Equal(t, on.Scene, gone.Scene)

	// Undo and Redo say themselves what is on the bench.
	undone := app.Update(app.Update(own, app.Undo{}), app.Undo{})
	assert.Equal(t, on.Scene, undone.Scene)
	redone := app.Update(app.Update(undone, app.Redo{}), app.Redo{})
	assert.Equal(t, own.Scene, redone.Scene)
	assert.Equal(t, own.Kept, redone.Kept)
}

// A lesson that is opened over a stroke that is being corrected leaves the stroke, and
// gives back what was on the bench before that.
func TestLessonOverACorrection(t *testing.T) {
	m := app.Update(app.Start(), app.NoteStroke{See: "clean"})
	m = app.Update(m, app.Open{Link: "bridge=9in"})
	m = app.Update(m, app.EditStroke{Stroke: m.Kept.Strokes[0]})
	m = app.Update(m, app.Teach{Link: lesson.Link{Lesson: lesson.Lesson{Steps: []lesson.Step{{Link: "bridge=8in"}}}}})
	assert.False(t, m.Correction.On)
	m = app.Update(m, app.EndLesson{})
	assert.Equal(t, "v=1&bridge=9in", m.Scene.Format())
}

func TestPresetsKeepWhatTheUserHas(t *testing.T) {
	m := app.Update(app.Start(), app.Open{Link: "v=1&units=cm&name=House 3&ball=snooker&table=snooker&pivot=9in&side=0.2&scatter=1mm,0.05,5mm,0.5deg,0.1deg"})
	require.Empty(t, m.Notices)
	was := m.Scene
	m = app.Update(m, app.UsePreset{Preset: scenario.Preset{Link: "v=1&bridge=8in"}})
	assert.Equal(t, 8*unit.Inch, m.Settled.Bridge)
	assert.Equal(t, 0.4, m.Settled.Side, "the stroke is the preset's")
	for _, same := range [][2]any{{was.Units, m.Scene.Units}, {was.Ball, m.Scene.Ball}, {was.Table, m.Scene.Table}, {was.OnBench(), m.Scene.OnBench()}, {was.Scatter, m.Scene.Scatter}} {
		assert.Equal(t, same[0], same[1])
	}
	m = app.Update(m, app.UsePreset{Preset: scenario.Preset{Link: "v=1&pivot=19in"}})
	assert.Equal(t, 19*unit.Inch, m.Scene.Pivot)
	assert.Empty(t, m.Scene.Name, "a preset about the cue brings its own")
	assert.Equal(t, was.Ball, m.Scene.Ball)
	assert.Equal(t, was, app.Update(app.Update(m, app.Undo{}), app.Undo{}).Scene)

	small := app.Update(app.Start(), app.Open{Link: "v=1&table=7ft"})
	small = app.Update(small, app.UsePreset{Preset: scenario.Preset{Link: "v=1&dist=90in"}})
	assert.NotEmpty(t, small.Notices, "what does not fit the user's table is said")
	assert.Less(t, small.Scene.Dist, 90*unit.Inch)
}

// Of two lessons that say the same, the one that is edited is the open one.
func TestLessonsThatSayTheSame(t *testing.T) {
	mine := lesson.Lesson{Title: "New lesson", Steps: []lesson.Step{{Link: "v=1"}, {Link: "v=1"}}}
	m := app.Update(app.Update(app.Start(), app.KeepLesson{Lesson: mine}), app.KeepLesson{Lesson: mine})
	shorter := mine
	shorter.Steps = mine.Steps[:1]
	m = app.Update(m, app.EditLesson{Lesson: shorter})
	assert.Equal(t, shorter, m.Lesson.Lesson)
	assert.Len(t, m.Kept.Lessons, 2)
}
