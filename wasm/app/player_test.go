package app_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/player"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// saved returns the model after a new player was saved.
func saved(t *testing.T, m app.Model, p store.Player) app.Model {
	t.Helper()
	m = app.Update(m, app.OpenPlayerForm{New: true})
	require.True(t, m.PlayerForm.On)
	return app.Update(m, app.SavePlayerForm{Player: p})
}

var (
	ann     = store.Player{Name: "Ann", Hand: "right", Cue: "House 4", When: "2026-11-24T19:00:00+01:00"}
	annTurn = store.Stroke{Cue: "House 4", Link: "v=1&back=0.5&front=0.5", Mark: "-1.9in", At: "30in", Read: "3mm"}
)

func TestPlayersAreEdited(t *testing.T) {
	m := saved(t, app.Start(), ann)
	require.Equal(t, []store.Player{ann}, m.Kept.Players)
	assert.False(t, m.PlayerForm.On)
	assert.Equal(t, "ann", m.Player, "who was just saved is chosen")

	m = app.Update(m, app.NoteTurn{Strokes: []store.Stroke{annTurn}})
	require.Len(t, m.Kept.TurnsOf("Ann"), 1)

	// Another of that name is refused, and nothing typed is lost.
	again := saved(t, m, store.Player{Name: " ann ", Hand: "left"})
	assert.Equal(t, m.Kept, again.Kept)
	assert.True(t, again.PlayerForm.On)
	assert.Contains(t, again.Notices[0], "there is a player called Ann already")

	// His strokes follow a new name.
	m = app.Update(m, app.OpenPlayerForm{Player: ann})
	renamed := ann
	renamed.Name = "Ann Lee"
	m = app.Update(m, app.SavePlayerForm{Player: renamed})
	assert.Equal(t, []store.Player{renamed}, m.Kept.Players)
	assert.Len(t, m.Kept.TurnsOf("Ann Lee"), 1)
	assert.Equal(t, "ann lee", m.Player)
	m = app.Update(m, app.Undo{})
	assert.Len(t, m.Kept.TurnsOf("Ann"), 1, "undo brings both back")
	assert.Equal(t, []store.Player{ann}, m.Kept.Players)

	bad := saved(t, m, store.Player{Name: "Bert", Hand: "right", Grip: "long"})
	assert.Contains(t, bad.Notices[0], "grip: ")
	assert.Equal(t, m.Kept, bad.Kept)

	// Deleted in another tab while the form is open.
	m = app.Update(m, app.OpenPlayerForm{Player: ann})
	m.Kept.Players = nil
	m = app.Update(m, app.SavePlayerForm{Player: ann})
	assert.Equal(t, []store.Player{ann}, m.Kept.Players)
	assert.Contains(t, m.Notices[0], "is gone")
	assert.Contains(t, app.Update(m, app.OpenPlayerForm{Player: renamed}).Notices[0], "player is gone")
	assert.False(t, app.Update(app.Update(m, app.OpenPlayerForm{Player: ann}), app.ClosePlayerForm{}).PlayerForm.On)
}

func TestStrokesOfPlayers(t *testing.T) {
	m := saved(t, app.Start(), ann)
	m = saved(t, m, store.Player{Name: "Bert", Hand: "left"})
	m = app.Update(m, app.NoteTurn{Strokes: []store.Stroke{annTurn}}) // Bert plays Ann's shot
	m = app.Update(m, app.ChoosePlayer{Name: "ANN"})
	m = app.Update(m, app.NoteTurn{Strokes: []store.Stroke{annTurn}})
	m = app.Update(m, app.NoteTurn{Strokes: []store.Stroke{annTurn}})
	assert.Len(t, m.Kept.TurnsOf("Bert"), 1)
	assert.Len(t, m.Kept.TurnsOf("Ann"), 2)
	assert.Empty(t, m.Kept.Strokes, "they are not strokes of the sitting in Measure")

	bad := app.Update(m, app.NoteTurn{Strokes: []store.Stroke{store.Stroke{Link: "v=1", Mark: "9ft", At: "30in", Read: "3mm"}}})
	assert.Equal(t, m.Kept, bad.Kept)
	assert.NotEmpty(t, bad.Notices)

	assert.Len(t, app.Update(m, app.Drop[store.Turn]{Record: m.Kept.Turns[1]}).Kept.TurnsOf("Ann"), 1)
	cleared := app.Update(m, app.ClearTurns{Player: "ann"})
	assert.Equal(t, m.Kept.TurnsOf("Bert"), cleared.Kept.Turns)
	assert.Equal(t, cleared.Changes, app.Update(cleared, app.ClearTurns{Player: "ann"}).Changes)

	gone := app.Update(m, app.Drop[store.Player]{Record: ann})
	assert.Empty(t, gone.Kept.TurnsOf("Ann"), "his strokes go with him")
	_, ok := gone.Chosen()
	assert.False(t, ok)
	assert.Contains(t, app.Update(gone, app.NoteTurn{Strokes: []store.Stroke{annTurn}}).Notices[0], "player is gone")
	assert.Len(t, app.Update(gone, app.Undo{}).Kept.TurnsOf("Ann"), 2)
	assert.Empty(t, app.Update(m, app.ChoosePlayer{Name: "Cleo"}).Player)

	// A cue is renamed wherever it is.
	other := app.Update(m, app.RenameCue{Was: "house 4", Name: "House 5"})
	assert.Equal(t, "House 5", other.Kept.Players[0].Cue)
	assert.Equal(t, "House 5", other.Kept.Turns[0].Cue)
}

// A class plays at one table in turn: a stroke passes the turn on, round and round, past
// those who sit out; taking one back, or undoing it, gives the turn back.
func TestAClassPlaysInTurn(t *testing.T) {
	m := app.Start()
	assert.Empty(t, app.Update(m, app.TakeTurns{On: true}).Player, "nobody is there")
	for _, name := range []string{"Ann", "Bert", "Cleo"} {
		m = saved(t, m, store.Player{Name: name, Hand: "right"})
	}
	m = app.Update(m, app.ChoosePlayer{})
	assert.Empty(t, app.Update(m, app.PassTurn{}).Player, "not outside a round")
	assert.Equal(t, m, app.Update(m, app.SitOut{}))
	assert.Equal(t, m, app.Update(m, app.TakeBackTurn{}), "there is none")
	note := app.NoteTurn{Strokes: []store.Stroke{annTurn}}

	m = app.Update(m, app.TakeTurns{On: true})
	var order []string
	for _, when := range []string{"2026-11-24T19:00:00Z", "2026-11-24T19:01:00Z", "2026-11-24T19:02:00Z", "2026-11-24T19:03:00Z"} {
		order = append(order, m.Player)
		stroke := annTurn
		stroke.When = when
		m = app.Update(m, app.NoteTurn{Strokes: []store.Stroke{stroke}})
		require.Empty(t, m.Notices)
	}
	assert.Equal(t, []string{"ann", "bert", "cleo", "ann"}, order)
	assert.Len(t, m.Kept.TurnsOf("Ann"), 2)

	undone := app.Update(m, app.Undo{})
	assert.Equal(t, "ann", undone.Player)
	assert.Len(t, undone.Kept.Turns, 3)
	assert.Equal(t, "bert", app.Update(undone, app.Redo{}).Player)
	back := app.Update(m, app.TakeBackTurn{})
	assert.Equal(t, "ann", back.Player)
	assert.Equal(t, undone.Kept.Turns, back.Kept.Turns)
	// Strokes that come from another tab or a file are not of this round, and those that are
	// undone or deleted are not there.
	brought := m
	brought.Kept.Turns = append(slices.Clone(m.Kept.Turns), store.Turn{Player: "Cleo", Stroke: store.Stroke{Link: "v=1", See: "left", When: "2026-11-24T20:00:00Z"}})
	assert.Equal(t, brought.Kept.Turns[4], app.Update(brought, app.TakeBackTurn{}).Kept.Turns[3])
	assert.Equal(t, "cleo", app.Update(undone, app.TakeBackTurn{}).Player)
	four := back
	for range 3 {
		four = app.Update(four, app.TakeBackTurn{})
	}
	assert.Empty(t, four.Kept.Turns)
	assert.Equal(t, four, app.Update(four, app.TakeBackTurn{}))
	named := app.Update(m, app.OpenPlayerForm{Player: m.Kept.Players[0]})
	named = app.Update(named, app.SavePlayerForm{Player: store.Player{Name: "Ann Lee", Hand: "right"}})
	named = app.Update(named, app.RenameCue{Was: "House 4", Name: "House 5"})
	require.Equal(t, "House 5", named.Kept.Turns[3].Cue)
	named = app.Update(named, app.TakeBackTurn{})
	assert.Len(t, named.Kept.TurnsOf("Ann Lee"), 1, "under her new name, with the cue's")
	assert.Equal(t, "ann lee", named.Player)
	again := app.Update(app.Update(m, app.TakeTurns{}), app.TakeTurns{On: true})
	assert.Equal(t, again, app.Update(again, app.TakeBackTurn{}), "those were of another round")

	elsewhere := app.Update(app.Update(app.Update(m, app.ChoosePlayer{Name: "Cleo"}), app.Set{Key: "bridge", Text: "9in"}), app.Settle{})
	assert.Equal(t, "cleo", app.Update(elsewhere, app.Undo{}).Player, "undoing something else leaves the turn")

	bad := app.Update(m, app.NoteTurn{Strokes: []store.Stroke{annTurn, {Link: "v=1", Mark: "9ft", At: "30in", Read: "3mm"}}})
	assert.Equal(t, m.Player, bad.Player)
	assert.Equal(t, m.Kept, bad.Kept, "all of a shot's strokes, or none")
	two := app.Update(m, app.NoteTurn{Strokes: []store.Stroke{annTurn, annTurn}})
	assert.Len(t, two.Kept.TurnsOf("Bert"), 3)
	assert.Equal(t, "cleo", two.Player)
	assert.Len(t, app.Update(two, app.Undo{}).Kept.TurnsOf("Bert"), 1, "one step")

	m = app.Update(m, app.SitOut{})
	assert.Equal(t, "cleo", m.Player)
	m = app.Update(app.Update(m, note), note)
	assert.Equal(t, "cleo", m.Player, "past Bert")
	m = app.Update(m, app.ChoosePlayer{Name: "Bert"})
	assert.Empty(t, m.Round.Out, "he plays again")
	for range 3 {
		m = app.Update(m, app.SitOut{})
	}
	assert.Len(t, m.Round.Out, 3)
	assert.Equal(t, m, app.Update(m, app.PassTurn{}), "all sit out")
	m = app.Update(m, app.Drop[store.Player]{Record: m.Kept.Players[1]})
	m = app.Update(m, app.ChoosePlayer{Name: "Cleo"})
	assert.Equal(t, "cleo", app.Update(m, app.PassTurn{}).Player, "she is the only one")
	m = app.Update(m, app.TakeTurns{})
	assert.Empty(t, m.Round)
	assert.Equal(t, "cleo", app.Update(m, note).Player, "outside a round the turn stays")
}

func TestAFitIsKept(t *testing.T) {
	m := saved(t, app.Start(), ann)
	p, wrong := ann.Player()
	require.Nil(t, wrong)
	p.Gain = player.Measured[float64]{Estimate: stat.Estimate[float64]{Median: 1.5, Interval: stat.Interval[float64]{From: 1.2, To: 1.9}}}
	m = app.Update(m, app.KeepFit{Was: ann, Fit: p, When: "2026-11-25T19:00:00+01:00"})
	now := m.Kept.Players[0]
	assert.Equal(t, "1.5; 1.2; 1.9", now.Gain)
	assert.Equal(t, "2026-11-25T19:00:00+01:00", now.Fitted)
	read, wrong := now.Player()
	require.Nil(t, wrong)
	assert.Equal(t, p.Gain, read.Gain)
	assert.IsType(t, player.Usual[unit.Angle]{}, read.Bias)
	assert.Contains(t, app.Update(m, app.KeepFit{Was: ann, Fit: p}).Notices[0], "player is gone", "he has changed meanwhile")
}

// A file from another phone doubles nobody, and says whom both had.
func TestImportDoublesNobody(t *testing.T) {
	m := saved(t, app.Start(), ann)
	m = app.Update(m, app.NoteTurn{Strokes: []store.Stroke{annTurn}})
	later := ann
	later.Elev, later.When = "2deg", "2026-11-25T19:00:00+01:00"
	file := store.Records{Players: []store.Player{later, {Name: "Bert", Hand: "left"}}, Turns: m.Kept.Turns}
	m = app.Update(m, app.OfferImport{Name: "other.json", Kept: file})
	m = app.Update(m, app.AddImport{})
	require.Len(t, m.Kept.Players, 2)
	assert.Equal(t, later, m.Kept.Players[m.Kept.PlayerAt("Ann")])
	assert.Len(t, m.Kept.Turns, 1)
	require.Len(t, m.Notices, 1)
	assert.Contains(t, m.Notices[0], "Ann.")
	m = app.Update(app.Update(m, app.OfferImport{Name: "other.json", Kept: file}), app.AddImport{})
	assert.Len(t, m.Kept.Players, 2)
	assert.Empty(t, m.Notices)
}

func TestAPlayerComesByLink(t *testing.T) {
	p := ann
	turns := []store.Turn{{Player: "Ann", Stroke: annTurn}}
	m := app.Update(app.Start(), app.Bring{Link: "#" + p.Fragment(turns)})
	require.True(t, app.Brings("#"+p.Fragment(turns)))
	assert.Equal(t, "players", m.Section)
	assert.Equal(t, store.Records{Players: []store.Player{ann}, Turns: turns}, m.Offered)
	assert.Empty(t, m.Kept.Players, "not before it is asked to")
	assert.Empty(t, app.Update(m, app.LeavePlayer{}).Offered)
	m = app.Update(m, app.KeepPlayer{})
	assert.Equal(t, []store.Player{ann}, m.Kept.Players)
	assert.Equal(t, turns, m.Kept.Turns)
	assert.Empty(t, m.Offered)
	assert.Equal(t, "ann", m.Player)
	assert.Empty(t, m.Notices)

	older := ann
	older.When, older.Notes = "2026-11-23T19:00:00+01:00", "older"
	turns = append(turns, store.Turn{Player: "Ann", Stroke: store.Stroke{Cue: "House 4", Link: "v=1", See: "left"}})
	m = app.Update(app.Update(m, app.Bring{Link: "#" + older.Fragment(turns)}), app.KeepPlayer{})
	assert.Equal(t, []store.Player{ann}, m.Kept.Players, "nobody is doubled, and the newer record stays")
	assert.Equal(t, turns, m.Kept.Turns, "only the stroke that is new is added")
	assert.Contains(t, m.Notices[0], "Ann")
	assert.Equal(t, m.Changes, app.Update(m, app.KeepPlayer{}).Changes)
	assert.Len(t, app.Update(m, app.Undo{}).Kept.Turns, 1)

	bad := app.Update(m, app.Bring{Link: "#player&v=1&name=Ann"})
	assert.Contains(t, bad.Notices[0], "cut short")
	assert.Equal(t, m.Section, bad.Section)
}
