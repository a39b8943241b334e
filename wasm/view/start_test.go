package view_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// Every door has words, and a next step that is there until it is done.
func TestDoorsShowTheNextStep(t *testing.T) {
	require.Len(t, view.Doors, len(app.Doors))
	begin := app.Start()
	done := map[string][]app.Event{
		"measure": {app.MeasureCue{Name: "House 4"}, app.NoteStroke{Cue: "House 4", See: "clean", When: "2026-11-24T19:01:00Z"}},
		"aim":     {app.Set{Key: "bridge", Text: "9in"}, app.Settle{}},
		"compare": {app.Compare{Cues: []scenario.CueSpec{begin.Scene.OnBench()}}},
		"teach":   {app.Bring{Link: "lesson&v=1&shipped=squirt"}},
	}
	for i, door := range view.Doors {
		assert.Equal(t, app.Doors[i].Name, door.Name)
		assert.NotEmpty(t, door.Label)
		m := app.Update(app.Start(), app.TakeDoor{Name: door.Name})
		assert.NotEmpty(t, view.NextStep(&m), door.Name)
		for _, e := range done[door.Name] {
			m = app.Update(m, e)
		}
		assert.Empty(t, view.NextStep(&m), door.Name)
		m = app.Update(app.Update(app.Start(), app.TakeDoor{Name: door.Name}), app.EndStep{})
		assert.Empty(t, view.NextStep(&m), door.Name)
	}
	m := app.Update(app.Start(), app.TakeDoor{Name: "measure"})
	unnamed := view.NextStep(&m)
	m = app.Update(m, app.MeasureCue{Name: "House 4"})
	assert.NotEqual(t, unnamed, view.NextStep(&m), "the name is asked for once")
}

// Another's gear is named beside the user's own.
func TestOtherGearIsSaid(t *testing.T) {
	m := app.Update(app.Start(), app.Open{Link: "v=1&table=7ft&units=cm"})
	assert.Empty(t, view.OtherGear(&m), "nothing was chosen")
	m = app.Update(app.Start(), app.SetGear{Key: "table", Text: "8ft"})
	m = app.Update(m, app.SetGear{Key: "ball", Text: "snooker"})
	m = app.Update(m, app.SetGear{Key: "units", Text: "cm"})
	m = app.Update(m, app.KeepGear{Parts: []scenario.Part{scenario.CuePart}})
	assert.Empty(t, view.OtherGear(&m))
	m = app.Update(m, app.Open{Link: "v=1&table=8ft&cloth=worn&name=House%204&pivot=10in"})
	assert.Equal(t, "This shot has its own gear: inches, pool balls, worn cloth, House 4 (pivot length 10.0 in). "+
		"Yours: centimetres, snooker balls, broken in cloth, a cue with a pivot length of 12.0 in.", view.OtherGear(&m))
	m = app.Update(m, app.Open{Link: "v=1&table=8ft&ball=snooker&slide=0.3&units=cm"})
	assert.Equal(t, "This shot has its own gear: measured values for ball or cloth. Yours: standard values for ball and cloth.", view.OtherGear(&m))
}

// The user's own cue is chosen from the saved ones, or is the current one.
func TestCuesOfOnesOwn(t *testing.T) {
	m := app.Start()
	assert.Equal(t, []view.GearCue{{view.NoCue, "Not chosen yet"}, {view.BenchCue, "Current cue: a cue with a pivot length of 12.0 in"}}, view.GearCues(&m, nil))
	m = app.Update(m, app.KeepGear{Parts: []scenario.Part{scenario.CuePart}})
	assert.Equal(t, []view.GearCue{{view.OwnCue, "a cue with a pivot length of 12.0 in"}}, view.GearCues(&m, nil))
	m = app.Update(m, app.Open{Link: "v=1&name=House%204&pivot=10in"})
	m = app.Update(m, app.SaveCue{Cue: store.Typed(&m.Scene, "2026-11-24T19:00:00Z")})
	cues := view.GearCues(&m, view.ListCues(m.Kept.Cues))
	assert.Equal(t, []view.GearCue{{view.OwnCue, "a cue with a pivot length of 12.0 in"}, {view.BenchCue, "Current cue: House 4 (pivot length 10.0 in)"}, {"house 4", "House 4"}}, cues)
}
