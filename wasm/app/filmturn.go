package app

import (
	"pivotbench/core/player"
	"pivotbench/core/scenario"
	"pivotbench/wasm/store"
)

// A FilmTurn is a player's stroke that is filmed. Meanwhile its shot is the current shot.
type FilmTurn struct {
	Player string            // his key (see player.Key); empty if films are of the measured cue
	Back   scenario.Scenario // the shot from before
}

// FilmPlayer opens the film in the section for measuring, for a stroke of the chosen player
// with the shot of a link. A film that was noted already is not read again for it. If nobody
// is chosen, only the notices change.
type FilmPlayer struct{ Link string }

func (e FilmPlayer) update(m Model) Model {
	if _, ok := m.Chosen(); !ok {
		return m.gone("player")
	}
	if m.Noted() {
		m = m.unread("")
	}
	m = LeaveStroke{}.update(m.settled())
	m.FilmTurn = FilmTurn{m.Player, m.Scene}
	m.Scene, _ = scenario.Parse(e.Link)
	m.Settled, m.HasEarlier, m.Notices = m.Scene, false, nil
	return OpenSection{"measure"}.update(m)
}

// LeaveFilmTurn goes back to the player without a stroke. It changes nothing unless a
// player is filmed.
type LeaveFilmTurn struct{}

func (LeaveFilmTurn) update(m Model) Model {
	if m.FilmTurn.Player == "" {
		return m
	}
	return OpenSection{"players"}.update(m)
}

// filmLeft returns the model with nobody filmed, and with the shot from before. Neither
// that shot nor the player's becomes a step for undo.
func (m Model) filmLeft() Model {
	if m.FilmTurn.Player == "" {
		return m
	}
	m = m.settled()
	m.FilmTurn.Back.Units = m.Scene.Units
	m.Scene, m.Settled, m.FilmTurn = m.FilmTurn.Back, m.FilmTurn.Back, FilmTurn{}
	return m
}

// Filmed returns the record of the player who is filmed. ok is false if none is.
func (m *Model) Filmed() (p store.Player, ok bool) {
	if i := m.Kept.PlayerAt(m.FilmTurn.Player); m.FilmTurn.Player != "" && i >= 0 {
		return m.Kept.Players[i], true
	}
	return store.Player{}, false
}

// noteFilmTurn records the stroke of the film for the player who is filmed, and goes back
// to the players.
func (m Model) noteFilmTurn(when string) Model {
	p, ok := m.Filmed()
	if !ok {
		return m.gone("player")
	}
	k := m.Film.Track.Record
	k.Cue, k.Link, k.When = p.Cue, m.Scene.Format(), when
	next := m.filmLeft()
	next.Player = player.Key(p.Name)
	next = NoteTurn{[]store.Stroke{k}}.update(next)
	if next.Notices != nil { // it stays as it was, to be mended
		m.Notices = next.Notices
		return m
	}
	return OpenSection{"players"}.update(next)
}
