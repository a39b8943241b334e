package view_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// A class of 60 plays in turn: each has a button that can be found by name, and the one
// whose turn it is always shows.
func TestAClassPlaysInTurn(t *testing.T) {
	m := class(t)
	assert.Empty(t, view.RoundOf(&m, ""))
	assert.True(t, view.CanTakeTurns(&m))
	m = app.Update(m, app.TakeTurns{On: true})
	r := view.RoundOf(&m, "")
	assert.Equal(t, "Ann: stroke 1", r.Head)
	assert.Empty(t, r.Last)
	assert.Equal(t, []view.RoundRow{{Index: 0, Words: "Ann · 0", Full: "Ann, 0 strokes", Chosen: true}, {Index: 1, Words: "Bert · 0", Full: "Bert, 0 strokes"}}, r.Rows)

	m, _ = plays(t, m, 1)
	assert.Equal(t, "bert", m.Player)
	r = view.RoundOf(&m, "")
	assert.Equal(t, "Bert: stroke 1", r.Head)
	assert.Equal(t, "Ann, 1 stroke", r.Rows[0].Full)
	assert.Regexp(t, `^Ann, stroke 1: -?\d+\.\d in$`, r.Last)
	m = app.Update(m, app.SitOut{})
	r = view.RoundOf(&m, "")
	assert.Equal(t, view.RoundRow{Index: 1, Words: "Bert · out", Full: "Bert, sits out", Out: true}, r.Rows[1])
	m = app.Update(m, app.ChoosePlayer{})
	assert.Equal(t, "Whose stroke is it? Tap a name", view.RoundOf(&m, "").Head)

	for i := range 58 {
		m = app.Update(app.Update(m, app.OpenPlayerForm{New: true}), app.SavePlayerForm{Player: store.Player{Name: "Player " + strconv.Itoa(i), Hand: "right"}})
	}
	require.Len(t, view.RoundOf(&m, "").Rows, 60)
	found := view.RoundOf(&m, "player 3")
	require.Len(t, found.Rows, 12, "3, 30 to 39, and 57, whose turn it is")
	assert.Equal(t, view.ListState(&m, "a"), view.ListState(&m, "a"))
	assert.NotEqual(t, view.ListState(&m, "a"), view.ListState(&m, ""))
	next := app.Update(m, app.SitOut{})
	assert.NotEqual(t, view.ListState(&next, "a"), view.ListState(&m, "a"))
}
