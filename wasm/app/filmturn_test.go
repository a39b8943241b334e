package app_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

const annLink = "v=1&back=0.5&front=0.5&bridge=9in&dist=24in&gate=18in&gap=12in"

// filmed has events after a film was opened for the chosen player, which then is read.
func filmed(m app.Model) app.Model {
	return then(m, app.FilmPlayer{Link: annLink}, app.OpenFilm{}, app.ShowFilm{Width: 1280, Height: 720}, app.StandFilm{Stand: filmStand()},
		app.ReadFilm{}, app.FindStrokes{Begins: []float64{0.6}}, app.TrackFilm{Track: filmTrack()})
}

// A stroke of a player is filmed in the section for measuring and noted with one tap: it is
// his, with his cue and the shot that was filmed; then his section is open again with the
// shot from before, the turn has passed on, and one step back takes the stroke away.
func TestAPlayersStrokeOnFilm(t *testing.T) {
	m := saved(t, saved(t, app.Start(), store.Player{Name: "Bert", Hand: "left"}), ann)
	m = then(m, app.OpenSection{Name: "players"}, app.TakeTurns{On: true})
	before := m.Scene
	m = filmed(m)
	assert.Equal(t, "measure", m.Section)
	assert.Equal(t, app.FilmDone, m.Film.Step)
	p, ok := m.Filmed()
	require.True(t, ok)
	assert.Equal(t, ann, p)
	assert.Equal(t, 9*unit.Inch, m.Scene.Bridge)
	far := m
	far.Marking.Line = "60"
	assert.Equal(t, 18*unit.Inch, far.MarkLine(), "the ball does not come to a line beyond the target")

	noted := then(m, app.NoteFilm{Cue: "House 3", When: "2026-11-24T19:00:00Z"})
	require.Empty(t, noted.Notices)
	want := filmTrack().Record
	want.Cue, want.When, want.Link = "House 4", "2026-11-24T19:00:00Z", m.Scene.Format()
	assert.Equal(t, []store.Turn{{Player: "Ann", Stroke: want}}, noted.Kept.Turns)
	assert.Empty(t, noted.Kept.Strokes)
	assert.Equal(t, "players", noted.Section)
	assert.Equal(t, before, noted.Scene)
	assert.Equal(t, before, noted.Settled)
	assert.Equal(t, "bert", noted.Player)
	assert.True(t, noted.Noted())
	assert.Empty(t, then(noted, app.TakeBackTurn{}).Kept.Turns)

	undone := then(noted, app.Undo{})
	assert.Empty(t, undone.Kept.Turns)
	assert.Equal(t, "ann", undone.Player)
	assert.Equal(t, before, undone.Scene)

	// The next player's stroke from the same stand: the marks stay, and the film that was
	// noted is not noted for him too.
	next := then(noted, app.FilmPlayer{Link: annLink})
	assert.Equal(t, app.FilmMarking, next.Film.Step)
	assert.True(t, next.Film.Stand.Stood())
	assert.False(t, next.Film.Track.Read())
	far = then(noted, app.FilmPlayer{Link: "v=1&dist=48in&gate=36in&gap=12in"})
	assert.False(t, far.Film.Stand.Stood())
	assert.Contains(t, far.Film.Why, "elsewhere")
}

// Going back, or to a section that has nothing to do with the film, brings back the shot
// without a stroke. Looking at the shot does not, and it may be changed there.
func TestFilmingAPlayerIsLeft(t *testing.T) {
	m := then(saved(t, app.Start(), ann), app.OpenSection{Name: "players"})
	before := m.Scene
	assert.Equal(t, m, then(m, app.LeaveFilmTurn{}))
	m = filmed(m)
	for name, e := range map[string]app.Event{"back": app.LeaveFilmTurn{}, "tab": app.OpenSection{Name: "cues"}} {
		left := then(m, e)
		assert.Equal(t, before, left.Scene, name)
		assert.Empty(t, left.FilmTurn, name)
		assert.Equal(t, m.Past, left.Past, name)
		assert.Equal(t, app.FilmDone, left.Film.Step, name)
	}
	assert.Equal(t, "players", then(m, app.LeaveFilmTurn{}).Section)
	higher := then(m, app.OpenSection{Name: "shot"}, app.Set{Key: "elev", Text: "8deg"}, app.OpenSection{Name: "measure"}, app.NoteFilm{})
	require.Len(t, higher.Kept.Turns, 1)
	assert.Contains(t, higher.Kept.Turns[0].Link, "elev=8deg")
	assert.Equal(t, before, higher.Scene)
	assert.Empty(t, then(m, app.Open{Link: "v=1&bridge=8in"}).FilmTurn, "another shot is opened")
	centimetres := then(m, app.Set{Key: "units", Text: "cm"}, app.LeaveFilmTurn{})
	assert.Equal(t, "cm", centimetres.Scene.Units)

	// After a reload the film is gone, but not whose it was to be.
	visit := app.ParseVisit(m.Visit("in", nil).Format())
	again := then(app.Start(), app.Restore{Kept: m.Kept}, app.First{Link: m.Settled.Format()}, app.Return{Visit: visit})
	assert.Equal(t, m.FilmTurn, again.FilmTurn)
	assert.Equal(t, app.Film{Why: "The page was loaded again, so the film is closed. Choose it again."}, again.Film)
	shut := then(m, app.ShutFilm{})
	assert.Empty(t, then(app.Start(), app.Return{Visit: app.ParseVisit(shut.Visit("in", nil).Format())}).Film)
	assert.Equal(t, before, then(again, app.LeaveFilmTurn{}).Scene)

	gone := then(m, app.Drop[store.Player]{Record: ann})
	_, ok := gone.Filmed()
	assert.False(t, ok)
	gone = then(gone, app.NoteFilm{})
	assert.Contains(t, gone.Notices[0], "player is gone")
	assert.Empty(t, gone.Kept.Turns)
	assert.Contains(t, then(gone, app.FilmPlayer{Link: annLink}).Notices[0], "player is gone")
	bad := m
	bad.Film.Track.Record.At = "-3in"
	bad = then(bad, app.NoteFilm{})
	assert.NotEmpty(t, bad.Notices)
	assert.Equal(t, "measure", bad.Section, "to be mended there")
	assert.Equal(t, m.Scene, bad.Scene)
}
