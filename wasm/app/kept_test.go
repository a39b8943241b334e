package app_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/trial"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/kept"
)

// noted is a model with some tries, a cue and marks.
func noted(t *testing.T) app.Model {
	t.Helper()
	m := app.Start()
	for i, o := range kept.Outcomes {
		m = app.Update(m, app.Set{Key: "bridge", Text: strconv.Itoa(9+i) + "in"})
		m = app.Update(m, app.AddTry{Outcome: o, When: "2026-11-24T19:00:00Z"})
	}
	m = app.Update(m, app.Set{Key: "name", Text: "House 4, “thin”"})
	m = app.Update(m, app.SaveCue{Cue: kept.Typed(&m.Scene, "2026-11-24T19:30:00Z")})
	m = app.Update(m, app.SetMarks{Marks: kept.Marks{Rail: "50 in", Right: "-1.9 -2.1", Left: "2 2.2"}})
	require.Empty(t, m.Notices)
	require.Len(t, m.Kept.Tries, 3)
	return m
}

func TestTriesAreUndone(t *testing.T) {
	m := noted(t)
	deleted := app.Update(m, app.DeleteTry{Index: 0})
	assert.Len(t, deleted.Kept.Tries, 2)
	assert.Equal(t, m.Kept.Tries[1:], deleted.Kept.Tries)
	right := m.Kept.Tries[1]
	right.Outcome = "left"
	changed := app.Update(m, app.CorrectTry{Index: 1, Try: right})
	assert.Equal(t, "left", changed.Kept.Tries[1].Outcome)
	assert.Equal(t, "clean", m.Kept.Tries[1].Outcome, "a list is never changed in place")
	for _, after := range []app.Model{deleted, changed, app.Update(m, app.Replace{}), app.Update(m, app.DropCue{Index: 0})} {
		undone := app.Update(after, app.Undo{})
		assert.Equal(t, m.Kept, undone.Kept)
		assert.Equal(t, after.Kept, app.Update(undone, app.Redo{}).Kept)
	}
	for _, e := range []app.Event{app.DeleteTry{Index: 3}, app.DeleteTry{Index: -1}, app.CorrectTry{Index: 3, Try: right}, app.CorrectTry{Try: kept.Try{Link: "v=1", Outcome: "gone"}}, app.DropCue{Index: 9}, app.ChangeCue{Index: 1}, app.AddTry{Outcome: "sideways"}} {
		assert.Equal(t, m.Kept, app.Update(m, e).Kept)
	}
}

// A try whose ball can't come to the gate is not noted, and the reason is said.
func TestImpossibleTry(t *testing.T) {
	m := app.Update(app.Start(), app.Open{Link: "v=1&speed=0.4mph&roll=0.05"})
	m = app.Update(m, app.AddTry{Outcome: "clean"})
	assert.Empty(t, m.Kept.Tries)
	require.Len(t, m.Notices, 1)
	assert.Contains(t, m.Notices[0], trial.ErrNoCrossing.Error())
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
	cues := []scenario.Cue{cue, cue, cue, cue, cue, cue}
	m = app.Update(m, app.Compare{Cues: cues})
	assert.Equal(t, [5]scenario.Cue(cues[:5]), m.Scene.More)
	back, problems := scenario.Parse(m.Settled.Format())
	assert.Empty(t, problems)
	assert.Equal(t, m.Scene, back)
	fewer := app.Update(m, app.Compare{Cues: cues[:1]})
	assert.Equal(t, [5]scenario.Cue{cue}, fewer.Scene.More)
	assert.Equal(t, m.Scene, app.Update(fewer, app.Undo{}).Scene)
}

func TestChangeCue(t *testing.T) {
	m := noted(t)
	was := m.Kept.Cues[0]
	renamed := was
	renamed.Name = "House 5"
	changed := app.Update(m, app.ChangeCue{Index: 0, Cue: renamed})
	assert.Equal(t, []kept.Cue{renamed}, changed.Kept.Cues)
	assert.Equal(t, was, m.Kept.Cues[0], "a list is never changed in place")
	assert.Equal(t, m.Kept, app.Update(changed, app.Undo{}).Kept)
}

// Another tab's records are not taken back by undo here, and no step of undo
// is left that would do nothing.
func TestElsewhere(t *testing.T) {
	m := noted(t) // bridge 9, try, 10, try, 11, try, name, cue, marks
	m = app.Update(app.Update(m, app.DeleteTry{Index: 0}), app.Undo{})
	require.Len(t, m.Future, 1)
	theirs := kept.Records{Tries: m.Kept.Tries[:1]}
	m = app.Update(m, app.Elsewhere{Kept: theirs})
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
