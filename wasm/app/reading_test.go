package app_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

func TestReadingsAreKeptAndUndone(t *testing.T) {
	m := app.Start()
	for _, of := range []string{"speed", "rest", "speed"} {
		m = app.Update(m, app.AddReading{Reading: store.Reading{Of: of, Length: "50in", Time: "0.6s", By: "thumb"}})
	}
	require.Len(t, m.Kept.Readings, 3)
	before := m.Kept.Readings
	m = app.Update(m, app.Drop[store.Reading]{Record: m.Kept.Readings[1]})
	assert.Len(t, m.Kept.Readings, 2)
	assert.Equal(t, "rest", before[1].Of, "never changed in place")
	assert.Len(t, app.Update(m, app.Undo{}).Kept.Readings, 3)

	assert.Empty(t, app.Update(m, app.ClearReadings{Of: "speed"}).Kept.Readings)
	assert.Equal(t, m, app.Update(m, app.ClearReadings{Of: "marks"}))
}

func TestTables(t *testing.T) {
	m := app.Start()
	m = app.Update(m, app.Open{Link: "v=1&bridge=9in&cloth=worn&slide=0.3"})
	m = app.Update(m, app.SaveTable{Table: store.TableOf(&m.Scene, "Table 4", "2026-11-24T19:00:00Z")})
	m = app.Update(m, app.Open{Link: "v=1&bridge=11in&roll=0.02"})
	m = app.Update(m, app.UseTable{Table: m.Kept.Tables[0]})
	assert.Equal(t, "v=1&cloth=worn&slide=0.3&bridge=11in", m.Scene.Format(), "the shot stays, the table changes, its other values are the named cloth's")
	assert.Equal(t, "v=1&roll=0.02&bridge=11in", func() string { u := app.Update(m, app.Undo{}); return u.Scene.Format() }())
	gone := app.Update(m, app.Drop[store.Table]{Record: m.Kept.Tables[0]})
	assert.Empty(t, gone.Kept.Tables)
	assert.Len(t, app.Update(gone, app.Undo{}).Kept.Tables, 1)

	// A table that is too short for the shot says so.
	m = app.Update(m, app.Open{Link: "v=1&table=snooker&dist=130in"})
	m = app.Update(m, app.UseTable{Table: m.Kept.Tables[0]})
	assert.NotEmpty(t, m.Notices)
}

func TestSetAllIsOneStep(t *testing.T) {
	m := app.Update(app.Start(), app.SetAll{Sets: []app.Setting{{"roll", "0.013"}, {"slide", "7"}, {"elev", "4deg"}}})
	assert.Equal(t, "v=1&roll=0.013&elev=4deg", m.Scene.Format())
	require.Len(t, m.Notices, 1)
	assert.Contains(t, m.Notices[0], "“7”")
	m = app.Update(m, app.Undo{})
	assert.Equal(t, scenario.Default(), m.Scene)
}
