package view_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/film"
	"pivotbench/core/scenario"
	"pivotbench/core/sitting"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// A proposed stroke that is filmed is the proposed stroke, with blockers beside the aim line
// before the target, and what the film shows counts in the player's fit.
func TestAProposedStrokeIsFilmed(t *testing.T) {
	m := class(t)
	for _, units := range []string{"in", "cm"} {
		m = app.Update(app.Update(m, app.Set{Key: "units", Text: units}), app.Settle{})
		f, err := view.NewPlayerFit(&m)
		require.NoError(t, err)
		for _, p := range f.Finding(sitting.ByMark, "today").Proposals {
			s, problems := scenario.Parse(f.FilmLink(p))
			require.Empty(t, problems)
			sh, meant := s.Shot(), p.Of(f.Fit)
			assert.Equal(t, meant.Hands, sh.Hands)
			assert.Equal(t, meant.Contact, sh.Contact)
			assert.Equal(t, meant.Speed, sh.Speed)
			assert.Equal(t, p.Line, sh.Dist)
			balls := film.Layout(&sh)
			require.Len(t, balls, 4, "the cue ball, the target and two rulers")
			for _, b := range balls[2:] {
				assert.Less(t, b.At.Y, sh.Dist)
				assert.Greater(t, unit.Abs(b.At.X), 6*unit.Inch)
			}
		}
	}

	m = app.Update(app.Update(m, app.Set{Key: "units", Text: "in"}), app.Settle{})
	assert.Empty(t, view.FilmTurnWords(&m))
	assert.Equal(t, "Note this stroke", view.FilmNoteWords(&m))
	f, err := view.NewPlayerFit(&m)
	require.NoError(t, err)
	next := f.Finding(sitting.ByMark, "today").Proposals[0]
	next.Side, next.Share, next.Speed, next.Line = 0.4, 0.75, 4*unit.MilePerHour, 24*unit.Inch
	m = app.Update(m, app.FilmPlayer{Link: f.FilmLink(next)})
	assert.Equal(t, "For Ann: 4 mph, "+phrase.EnglishInFull(&m.Scene)+", 75 % with the back hand as you feel it, the rest with the front hand. Aim straight at the target, 24 in away. Stand the blockers 18 in away with a gap of 12 in.", view.FilmTurnWords(&m))
	assert.Equal(t, "Note for Ann", view.FilmNoteWords(&m))
	assert.Equal(t, "Back to Ann", view.BackToPlayer(&m))

	m.Film.Track.Record = store.Filmed(sitting.Film{
		Launch: -0.01, Lines: []unit.Length{18 * unit.Inch}, At: []unit.Length{-0.005}, Speed: 4 * unit.MilePerHour,
		Across: 50 * unit.Inch, Cov: [][]float64{{1e-6, 0, 0}, {0, 1e-6, 0}, {0, 0, 1e-2}},
	})
	before := m
	m = app.Update(m, app.NoteFilm{When: "2026-11-25T19:00:00Z"})
	require.Empty(t, m.Notices)
	assert.Equal(t, "noted: Ann, stroke 1: −0.2 in", view.NotedWords(&before, &m))
	f, ok := f.AddWhile(m.Kept.Turns[0], always)
	require.True(t, ok)
	assert.Equal(t, 1, f.Fit.N())
}
