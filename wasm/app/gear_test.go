package app_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
)

// reopened returns the model of a later visit on the same device.
func reopened(m app.Model, link string) app.Model {
	next := app.Update(app.Start(), app.Recall{Look: m.Look.Format(), Gear: m.Gear.Format(), Known: true})
	return app.Update(next, app.First{Link: link})
}

// What a user plays with is chosen once: visits without a link begin with it, and neither
// links nor example shots change it.
func TestGearStaysOnTheDevice(t *testing.T) {
	m := app.Update(app.Start(), app.First{})
	m = app.Update(m, app.SetGear{Key: "units", Text: "cm"})
	m = app.Update(m, app.SetGear{Key: "table", Text: "8ft"})
	assert.Equal(t, "v=1&table=8ft&units=cm", m.Settled.Format())
	m = app.Update(m, app.Open{Link: "v=1&name=House%204&pivot=9.6in&bridge=9in"})
	assert.Equal(t, []scenario.Part{scenario.UnitsPart, scenario.TablePart}, m.Other(), "a link shows its own gear")
	m = app.Update(m, app.KeepGear{Parts: []scenario.Part{scenario.CuePart}})
	m = app.Update(m, app.UsePreset{Preset: scenario.Presets[6]})
	require.Contains(t, m.Scene.Format(), "pivot=19in")

	later := reopened(m, "")
	assert.Equal(t, "v=1&name=House%204&table=8ft&pivot=9.6in&units=cm", later.Settled.Format())
	assert.Empty(t, later.Other())
	assert.False(t, later.CanUndo())
	later = reopened(later, "#v=1&table=7ft")
	assert.Equal(t, "v=1&table=7ft", later.Settled.Format())
	assert.Len(t, later.Other(), 3)

	back := app.Update(later, app.UseGear{})
	assert.Equal(t, "v=1&name=House%204&table=8ft&pivot=9.6in&units=cm", back.Settled.Format())
	assert.Empty(t, back.Other())
	assert.Equal(t, later.Settled, app.Update(back, app.Undo{}).Settled, "one step for undo")
	mine := app.Update(later, app.KeepGear{Parts: later.Other()})
	assert.Empty(t, mine.Other())
	assert.Equal(t, later.Settled, mine.Settled)
}

// A link that is opened by its kind alone, or a device that says nothing, changes nothing.
func TestGearThatIsNotChosenChangesNothing(t *testing.T) {
	m := app.Update(app.Start(), app.First{Link: "v=1&table=7ft&units=cm"})
	assert.Empty(t, m.Other())
	assert.Equal(t, m, app.Update(m, app.UseGear{}))
	assert.Empty(t, m.Gear.Format())
	for _, text := range []string{"", "1", "111", "1111 v=1", "111 v=2&x=y", "000 v=1", "abc v=1", "1 1 1 v=1"} {
		assert.Equal(t, app.Start(), app.Update(app.Start(), app.Recall{Gear: text, SetUp: "", Look: ""}), "%q", text)
	}
	assert.Equal(t, m, app.Update(m, app.SetGear{Key: "bridge", Text: "9in"}), "a bridge is not gear")
	wrong := app.Update(m, app.SetGear{Key: "table", Text: "10ft"})
	assert.Len(t, wrong.Notices, 1)
	assert.Equal(t, m.Scene, wrong.Scene)
	assert.Equal(t, m.Gear, wrong.Gear)
}

// A value that is chosen keeps the others of its part, even under a link of others.
func TestGearIsChangedByItself(t *testing.T) {
	m := app.Update(app.Start(), app.SetGear{Key: "ball", Text: "snooker"})
	m = app.Update(m, app.Open{Link: "v=1&table=7ft&cloth=worn"})
	m = app.Update(m, app.SetGear{Key: "table", Text: "snooker"})
	assert.Equal(t, "v=1&table=snooker&ball=snooker", m.Settled.Format())
	small := app.Update(app.Update(m, app.Open{Link: "v=1&table=snooker&dist=120in&gate=110in"}), app.SetGear{Key: "table", Text: "7ft"})
	assert.Len(t, small.Notices, 2, "what does not fit the table is moved onto it")
}

// A lesson is about its own gear.
func TestLessonsBringTheirGear(t *testing.T) {
	m := app.Update(app.Start(), app.SetGear{Key: "table", Text: "8ft"})
	m = app.Update(m, app.Bring{Link: "lesson&v=1&shipped=squirt"})
	require.Positive(t, m.Lesson.Lesson.Stops())
	assert.Empty(t, m.Other())
	m = app.Update(m, app.EndLesson{})
	assert.Equal(t, "v=1&table=8ft", m.Settled.Format())
}
