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

	m = app.Update(m, app.EndLesson{})
	assert.Zero(t, m.Lesson.Lesson.Stops())
	assert.Equal(t, 10*unit.Inch, m.Scene.Bridge, "the shot stays")
	for range m.Past {
		m = app.Update(m, app.Undo{})
	}
	assert.Equal(t, app.Start().Scene, m.Scene, "all of it can be undone")
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
