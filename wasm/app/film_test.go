package app_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// then returns the model after events.
func then(m app.Model, events ...app.Event) app.Model {
	for _, e := range events {
		m = app.Update(m, e)
	}
	return m
}

func filmMarks() []app.FilmMark {
	return []app.FilmMark{
		{Ball: "cue", At: app.FilmPoint{X: 100, Y: 400}, Radius: 20}, {Ball: "target", At: app.FilmPoint{X: 600, Y: 100}, Radius: 9},
		{Ball: "left", At: app.FilmPoint{X: 500, Y: 110}, Radius: 10}, {Ball: "right", At: app.FilmPoint{X: 560, Y: 150}, Radius: 10},
	}
}

func filmStand() app.FilmStand {
	return app.FilmStand{Marks: filmMarks(), Aim: []app.FilmPoint{{X: 100, Y: 400}, {X: 600, Y: 100}}}
}

func filmTrack() app.FilmTrack {
	return app.FilmTrack{
		Launch: stat.NormalEstimate[unit.Angle](-0.05, 0.001), Line: 30 * unit.Inch,
		Frames: make([]app.FilmFrame, 9),
		Record: store.Filmed(sitting.Film{
			Launch: -0.05, Lines: []unit.Length{30 * unit.Inch}, At: []unit.Length{-0.03}, Speed: 5,
			Cov: [][]float64{{1e-6, 0, 0}, {0, 1e-6, 0}, {0, 0, 1e-2}},
		}),
	}
}

// markedFilm is a model with a film of 1280 by 720 whose balls are marked; done is one whose
// stroke is read.
func markedFilm() app.Model {
	return then(app.Start(), app.OpenSection{Name: "measure"}, app.OpenFilm{}, app.ShowFilm{Width: 1280, Height: 720}, app.StandFilm{Stand: filmStand()})
}

func done() app.Model {
	return then(markedFilm(), app.ReadFilm{}, app.AdvanceFilm{Share: 0.5}, app.FindStrokes{Begins: []float64{0.6, 4}}, app.TrackFilm{Track: filmTrack()})
}

// A film is opened, marked, read and noted, as one stroke of the current shot.
func TestFilmFromOpeningToNote(t *testing.T) {
	m := done()
	require.Equal(t, app.FilmDone, m.Film.Step)
	m = then(m, app.NoteFilm{Cue: "House 4", When: "2026-11-24T19:00:00Z"})
	require.Empty(t, m.Notices)
	require.Len(t, m.Kept.Strokes, 1)
	k := m.Kept.Strokes[0]
	want := filmTrack().Record
	want.Cue, want.When, want.Link = "House 4", "2026-11-24T19:00:00Z", m.Scene.Format()
	assert.Equal(t, want, k)
	assert.True(t, m.Noted())
	undone := then(m, app.Undo{})
	assert.False(t, undone.Noted())
	assert.Empty(t, then(m, app.Undo{}).Kept.Strokes)
	assert.Equal(t, app.FilmDone, then(m, app.Undo{}).Film.Step, "the film stays open")
}

// A stroke that is read otherwise since it was noted, as when its speed is used in the shot,
// is not noted twice, unless the noted one is taken back or deleted. Another stroke of the
// film is another stroke.
func TestFilmedStrokeIsNotedOnce(t *testing.T) {
	m := then(done(), app.NoteFilm{Cue: "House 4"})
	other := filmTrack()
	other.Record.Film.Speed = "5.1m/s"
	again := then(m, app.StrikeFrame{}, app.TrackFilm{Track: other})
	assert.True(t, again.Noted())
	assert.False(t, again.Counts(other.Record.Film))
	assert.Len(t, then(again, app.NoteFilm{Cue: "House 4"}).Kept.Strokes, 1)
	reread := then(m, app.CorrectMarks{}, app.ReadFilm{}, app.FindStrokes{Begins: []float64{0.6, 4}}, app.TrackFilm{Track: other})
	assert.True(t, reread.Noted())
	assert.Len(t, then(again, app.Drop[store.Stroke]{Record: m.Kept.Strokes[0]}, app.NoteFilm{Cue: "House 4"}).Kept.Strokes, 1)
	undone := then(again, app.Undo{}, app.NoteFilm{Cue: "House 4"})
	require.Len(t, undone.Kept.Strokes, 1)
	assert.Equal(t, other.Record.Film, undone.Kept.Strokes[0].Film)

	second := then(m, app.PickStroke{Stroke: 1}, app.TrackFilm{Track: other}, app.NoteFilm{Cue: "House 4"})
	assert.Len(t, second.Kept.Strokes, 2)
	third := filmTrack()
	third.Record.Film.Speed = "5.2m/s"
	back := then(second, app.PickStroke{}, app.TrackFilm{Track: third})
	assert.True(t, back.Noted())
	assert.Len(t, then(back, app.OpenFilm{}, app.ShowFilm{Width: 1280, Height: 720}, app.StandFilm{Stand: filmStand()}, app.ReadFilm{},
		app.FindStrokes{Begins: []float64{1}}, app.TrackFilm{Track: third}, app.NoteFilm{}).Kept.Strokes, 3, "another film")
}

// The set-up of a filmed stroke is corrected without the film being lost.
func TestCorrectedFilmStroke(t *testing.T) {
	m := then(done(), app.NoteFilm{Cue: "House 4"})
	k := m.Kept.Strokes[0]
	m = then(m, app.EditStroke{Stroke: k}, app.SetAll{Sets: []app.Setting{{Key: "bridge", Text: "11in"}}},
		app.NoteStroke{Cue: k.Cue, Mark: k.Mark, At: k.At, Read: k.Read, Film: k.Film})
	require.Empty(t, m.Notices)
	k.Link = m.Kept.Strokes[0].Link
	assert.Equal(t, []store.Stroke{k}, m.Kept.Strokes)
	assert.Contains(t, k.Link, "bridge=11in")
}

// A mark that moves drops what the old marks said, and stays within the picture. Its
// radius is forgotten only if it goes to another ball.
func TestMovedMark(t *testing.T) {
	m := then(done(), app.MarkFilm{Ball: "cue", At: app.FilmPoint{X: 105, Y: 400}})
	assert.Equal(t, app.FilmMarking, m.Film.Step)
	assert.False(t, m.Film.Stand.Stood())
	assert.False(t, m.Film.Track.Read())
	assert.Equal(t, app.FilmMark{Ball: "cue", At: app.FilmPoint{X: 105, Y: 400}, Radius: 20}, m.Film.Marks[0])
	assert.Equal(t, app.FilmMarking, then(m, app.ReadFilm{}).Film.Step, "the stand is not known")
	m = then(m, app.MarkFilm{Ball: "cue", At: app.FilmPoint{X: -5, Y: 9000}})
	assert.Equal(t, app.FilmMark{Ball: "cue", At: app.FilmPoint{X: 0, Y: 720}}, m.Film.Marks[0])
	assert.Equal(t, filmMarks(), done().Film.Marks)
	assert.Equal(t, m, then(m, app.MarkFilm{Ball: "other"}))
}

func TestTypedMark(t *testing.T) {
	m := then(markedFilm(), app.TypeFilmMark{Ball: "left", Axis: "x", Text: "512.5"}, app.TypeFilmMark{Ball: "left", Axis: "y", Text: "80"})
	assert.Equal(t, app.FilmPoint{X: 512.5, Y: 80}, m.Film.Marks[2].At)
	for text, axis := range map[string]string{"abc": "x", "-1": "x", "1281": "x", "721": "y", "": "y", "NaN": "y"} {
		bad := then(m, app.TypeFilmMark{Ball: "left", Axis: axis, Text: text})
		assert.Equal(t, m.Film, bad.Film, text)
		require.Len(t, bad.Notices, 1, text)
		assert.Contains(t, bad.Notices[0], "Mark of the left blocker, "+axis+": “"+text+"” is not in the picture. Type a number of pixels from 0 to ")
		assert.Equal(t, m, then(m, app.TypeFilmMark{Ball: "left", Axis: axis, Text: text, Draft: true}), "it is still being typed")
	}
	assert.Equal(t, 51.0, then(m, app.TypeFilmMark{Ball: "left", Axis: "x", Text: "51", Draft: true}).Film.Marks[2].At.X)
	same := then(markedFilm(), app.TypeFilmMark{Ball: "left", Axis: "x", Text: "500"})
	assert.True(t, same.Film.Stand.Stood(), "a mark that stays does not lose the stand")

	// What is typed moves the mark at once, and the outline is found near it. Leaving the
	// field changes nothing more, and a bad text puts the mark back.
	draft := then(markedFilm(), app.TypeFilmMark{Ball: "left", Axis: "x", Text: "9", Draft: true}, app.TypeFilmMark{Ball: "left", Axis: "x", Text: "99", Draft: true})
	assert.Equal(t, 99.0, draft.Film.Marks[2].At.X)
	left := then(draft, app.StandFilm{Stand: filmStand()}, app.TypeFilmMark{Ball: "left", Axis: "x", Text: "99"})
	assert.True(t, left.Film.Stand.Stood())
	assert.Equal(t, filmMarks(), left.Film.Marks)
	bad := then(draft, app.TypeFilmMark{Ball: "left", Axis: "x", Text: "9999", Draft: true}, app.TypeFilmMark{Ball: "left", Axis: "x", Text: "9999"})
	assert.Equal(t, filmMarks()[2].At, bad.Film.Marks[2].At)
	assert.Len(t, bad.Notices, 1)
	assert.Empty(t, bad.Film.Typing)
}

// Whatever fails, the marks stay: the next attempt starts from them.
func TestFilmsThatFail(t *testing.T) {
	for name, m := range map[string]app.Model{
		"in the middle": then(markedFilm(), app.ReadFilm{}, app.FailFilm{Why: "no"}),
		"no stroke":     then(markedFilm(), app.ReadFilm{}, app.FindStrokes{Why: "no"}),
		"marks":         then(markedFilm(), app.StandFilm{Stand: app.FilmStand{Why: "no"}}),
	} {
		assert.Equal(t, app.FilmMarking, m.Film.Step, name)
		assert.Equal(t, "no", m.Film.Why, name)
		assert.Equal(t, filmMarks(), m.Film.Marks, name)
	}
	assert.Equal(t, app.Film{Why: "gone", Marks: filmMarks()}, then(done(), app.LoseFilm{Why: "gone"}).Film)
	assert.Equal(t, app.Film{Why: "refused", Marks: filmMarks()}, then(done(), app.TakeFilm{}, app.FailFilm{Why: "refused"}).Film)
	m := then(app.Start(), app.OpenFilm{}, app.FailFilm{Why: "sound only"})
	assert.Equal(t, app.Film{Why: "sound only"}, m.Film)
	m = then(done(), app.OpenFilm{}, app.FailFilm{Why: "a photo"}, app.OpenFilm{})
	assert.Equal(t, app.Film{Step: app.FilmOpening, Marks: filmMarks()}, m.Film)
	assert.Equal(t, app.Film{}, then(m, app.ShutFilm{}, app.FailFilm{Why: "late"}).Film)
	assert.Empty(t, then(markedFilm(), app.NoteFilm{}).Kept.Strokes, "nothing is read yet")
}

// Answers that come too late change nothing.
func TestLateFilmAnswers(t *testing.T) {
	for _, m := range []app.Model{app.Start(), markedFilm()} {
		assert.Equal(t, m, then(m, app.AdvanceFilm{Share: 0.5}, app.FindStrokes{Begins: []float64{1}}, app.TrackFilm{Track: filmTrack()}, app.ScrubFilm{Frame: 3}, app.StrikeFrame{}))
	}
	m := done()
	assert.Equal(t, m, then(m, app.StandFilm{}, app.ShowFilm{Width: 5, Height: 5}))
	m = then(done(), app.CorrectMarks{})
	assert.Equal(t, markedFilm().Film, m.Film)
	assert.Equal(t, m, then(m, app.CorrectMarks{}))
	m = then(m, app.ReadFilm{})
	assert.Equal(t, m, then(m, app.StrikeFrame{}, app.TrackFilm{Track: filmTrack()}))
}

// A frame is struck out and put back; a fit that then fails keeps the frames in sight.
func TestStruckFrames(t *testing.T) {
	m := then(done(), app.ScrubFilm{Frame: 4}, app.StrikeFrame{}, app.ScrubFilm{Frame: 99}, app.StrikeFrame{})
	assert.Equal(t, []int{4, 8}, m.Film.Struck)
	m = then(m, app.TrackFilm{Track: app.FilmTrack{Why: "too few"}})
	assert.Len(t, m.Film.Track.Frames, 9)
	assert.Equal(t, "too few", m.Film.Why)
	assert.Empty(t, then(m, app.NoteFilm{}).Kept.Strokes)
	m = then(m, app.ScrubFilm{Frame: 4}, app.StrikeFrame{})
	assert.Equal(t, []int{8}, m.Film.Struck)
	assert.Empty(t, then(m, app.PickStroke{}).Film.Struck)
}

// Other english does not move the balls; another gate does.
func TestFilmFollowsTheLayout(t *testing.T) {
	m := then(done(), app.SetAll{Sets: []app.Setting{{Key: "side", Text: "0.1"}, {Key: "speed", Text: "9mph"}}})
	assert.Equal(t, app.FilmDone, m.Film.Step)
	for _, set := range []app.Setting{{Key: "gate", Text: "20in"}, {Key: "gap", Text: "3in"}, {Key: "dist", Text: "50in"}, {Key: "ball", Text: "snooker"}} {
		m := then(done(), app.SetAll{Sets: []app.Setting{set}})
		assert.Equal(t, app.FilmMarking, m.Film.Step, set.Key)
		assert.False(t, m.Film.Stand.Stood(), set.Key)
		assert.Equal(t, filmMarks(), m.Film.Marks, set.Key)
		assert.Contains(t, m.Film.Why, "elsewhere", set.Key)
	}
}
