package app_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/lesson"

	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

func TestSectionsOpen(t *testing.T) {
	m := app.Start()
	assert.Equal(t, "shot", m.Section)
	for _, name := range app.Sections {
		m = app.Update(m, app.OpenSection{Name: name})
		assert.Equal(t, name, m.Section)
		assert.Equal(t, name == "clearance", m.Look.Side, "hops are seen from the side")
		assert.Equal(t, name == "measure" || name == "players" || name == "instruments", m.HandsFull())
	}
	assert.Equal(t, m, app.Update(m, app.OpenSection{Name: "nowhere"}))
	assert.True(t, app.Update(m, app.ReadCautions{}).Cautioned)
}

// The records of one cue are in sight at a time; asking again hides them.
func TestRecordsOfACueAreShownAndHidden(t *testing.T) {
	m := app.Update(app.Start(), app.ShowRecords{Cue: "house 4"})
	assert.Equal(t, "house 4", m.OpenedCue)
	m = app.Update(m, app.ShowRecords{Cue: "slender"})
	assert.Equal(t, "slender", m.OpenedCue)
	assert.Empty(t, app.Update(m, app.ShowRecords{Cue: "slender"}).OpenedCue)
}

// A device that refuses is said to once, and for as long as it refuses.
func TestRefusalsOfTheDeviceAreToldOnce(t *testing.T) {
	m := app.Update(app.Start(), app.Stored{Refused: true})
	assert.Equal(t, []string{app.Unkept}, m.Notices)
	assert.True(t, m.Unkept)
	m = app.Update(app.Update(m, app.Dismiss{}), app.Stored{Refused: true})
	assert.Empty(t, m.Notices)
	assert.True(t, m.Unkept)
	m = app.Update(m, app.Stored{})
	assert.False(t, m.Unkept)
	m = app.Update(m, app.Tell{Notices: []string{"one"}})
	assert.Equal(t, []string{"one", "two"}, app.Update(m, app.AlsoTell{Notices: []string{"two"}}).Notices)
}

// The look is kept as text, and what can't be read of it changes nothing.
func TestTheLookComesBack(t *testing.T) {
	m := app.Update(app.Start(), app.Show{Look: app.Look{Stretch: 10, Theme: "dark", Left: true, Object: true}})
	again := app.Update(app.Start(), app.Recall{Look: m.Look.Format(), Cautioned: true})
	assert.Equal(t, app.Look{Stretch: 10, Theme: "dark", Left: true}, again.Look)
	assert.True(t, again.Cautioned)
	for _, junk := range []string{"", "9 plaid \x00", "4", "3 dark true", "4 dark", "4 dark true more"} {
		assert.Equal(t, app.Start(), app.Update(app.Start(), app.Recall{Look: junk}), "%q", junk)
	}
}

// What the device could not read stays on offer.
func TestUnreadRecordsAreKnown(t *testing.T) {
	m := app.Update(app.Start(), app.Restore{Notices: []string{"torn"}, Unread: true})
	assert.True(t, m.Unread)
	assert.Equal(t, []string{"torn"}, m.Notices)
	assert.False(t, app.Update(app.Start(), app.Elsewhere{}).Unread)
	assert.True(t, app.Update(app.Start(), app.Elsewhere{Notices: []string{"torn"}}).Unread)
}

// One gesture plays and holds; for a user who asks for less motion it steps.
func TestPlayOrHold(t *testing.T) {
	m := app.Update(app.Start(), app.PlayOrHold{})
	assert.True(t, m.Clock.Running)
	m = app.Update(m, app.PlayOrHold{LessMotion: true})
	assert.False(t, m.Clock.Running)
	assert.True(t, m.Clock.On)
	step := app.Update(app.Start(), app.PlayOrHold{LessMotion: true})
	assert.Equal(t, app.Update(app.Start(), app.Step{}), step)
}

// The sheet glides from one stop of a lesson to another, and from nothing else.
func TestWhatGlides(t *testing.T) {
	start := app.Start()
	open := app.Update(start, app.Teach{Link: lesson.Link{Lesson: lesson.Shipped[0].Lesson}})
	next := app.Update(open, app.Halt{At: 1})
	dragged := app.Update(next, app.Set{Key: "bridge", Text: "9in"})
	closed := app.Update(next, app.EndLesson{})
	assert.True(t, open.GlidesFrom(&start))
	assert.True(t, next.GlidesFrom(&open))
	assert.False(t, dragged.GlidesFrom(&next))
	assert.False(t, closed.GlidesFrom(&next))
}

// Values that were measured are kept in one record of the table and the day.
func TestMeasuredValuesAreKeptWithTheTable(t *testing.T) {
	const day = "2026-11-24T19:00:00+00:00"
	m := app.Update(app.Start(), app.SaveMeasured{Table: "Four", When: day, Sets: []app.Setting{{Key: "roll", Text: "0.0113"}, {Key: "slide", Text: "0.21"}}})
	assert.Len(t, m.Kept.Tables, 1)
	s := m.Scene
	m.Kept.Tables[0].Lay(&s)
	assert.Equal(t, 0.0113, s.Own.Roll.Value)
	assert.Equal(t, 0.21, s.Own.Slide.Value)
	bad := app.Update(m, app.SaveMeasured{Table: "Four", When: day, Sets: []app.Setting{{Key: "roll", Text: "steep"}}})
	assert.Contains(t, bad.Notices[0], "steep")
	assert.Equal(t, m.Kept, bad.Kept)
	assert.NotEmpty(t, app.Update(m, app.Drop[store.Table]{}).Notices)
}

// A link is where the model is when it brings the settled shot, however it is
// written.
func TestWhereAModelIs(t *testing.T) {
	m := app.Update(app.Start(), app.Open{Link: "v=1&bridge=9in"})
	assert.True(t, m.IsAt("#bridge=9in&v=1"))
	assert.False(t, m.IsAt("#v=1&bridge=10in"))
	assert.False(t, m.IsAt("#v=1&bridge=9in&side=none"), "something is refused")
	dragged := app.Update(m, app.Set{Key: "bridge", Text: "10in"})
	assert.True(t, dragged.IsAt("v=1&bridge=9in"), "until the gesture is over")
	assert.True(t, dragged.InGesture() && dragged.CanUndo() && !dragged.CanRedo())
}
