package view_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// With a cue that squirts less the player puts less on with the back hand, at every
// distance and speed, and hears where that is most.
func TestAPlayersCardWithAnotherCue(t *testing.T) {
	m := app.Update(class(t), app.SaveCue{Cue: store.CueRecord{Name: "Harbour low", Pivot: "19in", From: "18in", To: "20in", At: "0.5", How: "marks", Link: "v=1&tipwidth=11.5mm"}})
	_, f := plays(t, m, 6)
	listed := view.ListCues(m.Kept.Cues)
	require.Equal(t, "Harbour low", listed[1].Title())
	own, other := f.Own("today"), f.With(&listed[1], "today")
	assert.Equal(t, "Harbour low", other.Facts[0])
	assert.Empty(t, own.Change.Head)
	change := other.Change
	assert.Regexp(t, `^With Harbour low the aim changes most at 60 in, (soft|medium|firm): -?\d+ %( ±\d+)? instead of \d+ %( ±\d+)?$`, change.Head)
	assert.Equal(t, []string{"own cue", "Harbour low", "miss"}, change.Table.Columns)
	require.Len(t, change.Table.Rows, 12)
	last := 1e9
	for _, row := range change.Table.Rows {
		var miss float64
		_, err := fmt.Sscanf(row.Cells[2], "%f in right", &miss)
		require.NoError(t, err, "less squirt leaves the ball right of the target: %s", row.Cells[2])
		assert.LessOrEqual(t, miss, last)
		last = miss
	}
	assert.Contains(t, change.Note, "with right english")
	assert.Equal(t, change.Table.Rows[0].Head+": "+change.Table.Rows[0].Cells[1], strings.TrimPrefix(change.Head[:strings.Index(change.Head, " instead")], "With Harbour low the aim changes most at "))
	percent := func(cell string) int {
		n, err := strconv.Atoi(strings.ReplaceAll(strings.TrimSpace(strings.Split(cell, "%")[0]), "−", "-"))
		require.NoError(t, err, cell)
		return n
	}
	for i, row := range own.Shares.Rows {
		for j, cell := range row.Cells {
			assert.Less(t, percent(other.Shares.Rows[i].Cells[j]), percent(cell))
		}
	}
}

// Where no shot of the card can be played with both cues it says so.
func TestACueThatPlaysNoneOfTheCard(t *testing.T) {
	m := app.Update(class(t), app.SaveCue{Cue: store.CueRecord{Name: "Chalkless", Pivot: "12in", From: "11in", To: "13in", At: "0.3", How: "marks", Link: "v=1&chalk=0.3"}})
	_, f := plays(t, m, 1)
	listed := view.ListCues(m.Kept.Cues)
	require.Equal(t, "Chalkless", listed[1].Title())
	with := f.With(&listed[1], "today")
	assert.Equal(t, "No shot of the card can be played with both cues", with.Change.Head)
	assert.Contains(t, with.Change.Note, "12 shots of the card can't be played with both cues")
	assert.Contains(t, strings.Join(with.Notes, " "), "–: ")
}

// Which cue suits a player is told with his own bridge, speeds and errors, whatever the
// current shot has.
func TestWhichCueSuitsAPlayer(t *testing.T) {
	m := class(t)
	_, f := plays(t, m, 4)
	few := f.Suits(view.ListCues(m.Kept.Cues))
	assert.Empty(t, few.Head)
	assert.Contains(t, few.Note, "Measure two cues or more")

	m = app.Update(m, app.SaveCue{Cue: store.CueRecord{Name: "Harbour low", Pivot: "19in", From: "18in", To: "20in", At: "0.5", How: "marks", Link: "v=1&tipwidth=11.5mm"}})
	m = app.Update(m, app.Set{Key: "bridge", Text: "14in"})
	found := f.Suits(view.ListCues(m.Kept.Cues))
	assert.Regexp(t, `^Back hand alone with a 10(\.0)? in bridge: `, found.Head)
	require.Len(t, found.Table.Rows, 2)
	assert.Equal(t, "House 4", found.Table.Rows[0].Head)
	assert.Contains(t, found.Note, "the bridge, speeds and errors of Ann")
	for _, row := range found.Table.Rows {
		assert.Regexp(t, ` at (4|7|12) mph$`, row.Cells[1], "one of her own speeds")
	}
	assert.Equal(t, "Which cue suits Ann?", view.SuitsTitle("Ann"))
}

// A player's numbers on the current shot: the hands and the errors are the player's, the
// target and the cue stay.
func TestAPlayersNumbersInTheShot(t *testing.T) {
	m := class(t)
	m, f := plays(t, m, 4)
	now := app.Update(m, app.SetAll{Sets: f.Sets()})
	require.Empty(t, now.Notices)
	want := m.Scene
	want.Bridge, want.Grip, want.Elev, want.Speed = 10*unit.Inch, 30*unit.Inch, 3*unit.Degree, 7*unit.MilePerHour
	want.Scatter = now.Scene.Scatter
	assert.Equal(t, want, now.Scene)
	assert.NotEqual(t, m.Scene.Scatter, now.Scene.Scatter)
	assert.Equal(t, m.Scene.Scatter.Elev, now.Scene.Scatter.Elev)
	assert.True(t, f.Begins(&now, m.Kept.TurnsOf("Ann")))
}
