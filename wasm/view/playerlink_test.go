package view_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/wasm/app"
	"pivotbench/wasm/view"
)

// A player's link carries the strokes; where they don't fit it says so.
func TestALinkToAPlayer(t *testing.T) {
	m := class(t)
	ann := m.Kept.Players[0]
	never := func(string) bool { return false }
	alone, note := view.PlayerLink(&m, &ann, never)
	assert.Equal(t, ann.Fragment(nil), alone)
	assert.Empty(t, note, "there are no strokes to leave out")
	m, _ = plays(t, m, 2)
	whole, note := view.PlayerLink(&m, &ann, view.Linkable)
	assert.Equal(t, ann.Fragment(m.Kept.Turns), whole)
	assert.Empty(t, note)
	got, note := view.PlayerLink(&m, &ann, never)
	assert.Equal(t, alone, got)
	assert.Contains(t, note, "Ann without the strokes")
	assert.False(t, view.Linkable(strings.Repeat("x", 20000)))

	other := app.Update(app.Start(), app.Bring{Link: "#" + whole})
	assert.Equal(t, "The link brings the player Ann with 2 strokes.", view.OfferedWords(&other))
	other = app.Update(other, app.Bring{Link: "#" + alone})
	assert.Equal(t, "The link brings the player Ann, missing: strokes.", view.OfferedWords(&other))
	assert.Empty(t, view.OfferedWords(&m))
	assert.Equal(t, "Link copied. More.", view.AlsoSaid("Link copied", "More."))
	assert.Equal(t, "Link copied", view.AlsoSaid("Link copied", ""))
	assert.Equal(t, "More.", view.AlsoSaid("", "More."))
}
