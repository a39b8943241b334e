package app_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
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
	assert.Equal(t, 10*unit.Inch, m.Scene.Bridge, "the shot stays")
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
	m := app.Update(app.Start(), app.KeepLesson{Index: 0, Lesson: mine})
	require.Equal(t, []lesson.Lesson{mine}, m.Kept.Lessons)

	changed := mine
	changed.Title = "Yours"
	m = app.Update(m, app.KeepLesson{Index: 0, Lesson: changed})
	assert.Equal(t, []lesson.Lesson{changed}, m.Kept.Lessons)
	m = app.Update(m, app.DropLesson{Index: 0})
	assert.Empty(t, m.Kept.Lessons)
	m = app.Update(m, app.Undo{})
	assert.Equal(t, []lesson.Lesson{changed}, m.Kept.Lessons)
	m = app.Update(m, app.Undo{})
	assert.Equal(t, []lesson.Lesson{mine}, m.Kept.Lessons)

	bad := mine
	bad.Steps = nil
	refused := app.Update(m, app.KeepLesson{Index: 0, Lesson: bad})
	assert.Equal(t, []string{"Not kept: 0 steps; a lesson has 1 to 50"}, refused.Notices)
	assert.Equal(t, m.Kept, refused.Kept)
	for _, e := range []app.Event{app.KeepLesson{Index: 2, Lesson: mine}, app.KeepLesson{Index: -1, Lesson: mine}, app.DropLesson{Index: 1}, app.DropLesson{Index: -1}} {
		assert.Equal(t, m, app.Update(m, e))
	}
}
