package app

import (
	"slices"

	"pivotbench/core/player"
	"pivotbench/wasm/store"
)

// A Round is a class that plays at one table in turn: each stroke that is noted passes the
// turn to the next player.
type Round struct {
	On    bool
	Out   []string     // the keys of the players who sit out
	Noted []store.Turn // the strokes that were noted in it, oldest first; some may be gone
}

// mostNoted is the maximum number of strokes that a round remembers.
const mostNoted = 20

// TakeTurns starts or ends a round. A new round has all players, and begins with the
// chosen one, or else with the first.
type TakeTurns struct{ On bool }

func (e TakeTurns) update(m Model) Model {
	m.Round = Round{On: e.On}
	if _, ok := m.Chosen(); e.On && !ok && len(m.Kept.Players) > 0 {
		m = ChoosePlayer{m.Kept.Players[0].Name}.update(m)
	}
	return m
}

// PassTurn passes the turn to the next player, without a stroke. Outside a round it
// changes nothing.
type PassTurn struct{}

func (PassTurn) update(m Model) Model {
	players := m.Kept.Players
	at := m.Kept.PlayerAt(m.Player)
	for i := range players {
		key := player.Key(players[(at+1+i)%len(players)].Name)
		if m.Round.On && !slices.Contains(m.Round.Out, key) {
			m.Player = key
			break
		}
	}
	return m
}

// SitOut has the chosen player sit out the round, and passes the turn on. Whoever is chosen
// again plays again. Outside a round it changes nothing.
type SitOut struct{}

func (SitOut) update(m Model) Model {
	if _, ok := m.Chosen(); !ok || !m.Round.On || slices.Contains(m.Round.Out, m.Player) {
		return m
	}
	m.Round.Out = append(slices.Clip(m.Round.Out), m.Player)
	return PassTurn{}.update(m)
}

// LastTurn returns the index in Kept.Turns of the newest stroke that was noted in this round
// and is still there, or -1. Strokes from other tabs and from files are not of the round. The
// player and the cue may have other names by now.
func (m *Model) LastTurn() int {
	for _, noted := range slices.Backward(m.Round.Noted) {
		for i, t := range slices.Backward(m.Kept.Turns) {
			if noted.Player, noted.Cue = t.Player, t.Cue; t == noted {
				return i
			}
		}
	}
	return -1
}

// TakeBackTurn deletes the newest stroke of the round, and has the turn go back to whose it
// was. It changes nothing without one.
type TakeBackTurn struct{}

func (TakeBackTurn) update(m Model) Model {
	last := m.LastTurn()
	if last < 0 {
		return m
	}
	whose, k := m.Kept.Turns[last].Player, m.Kept
	k.Turns = slices.Delete(slices.Clone(k.Turns), last, last+1)
	m.Notices = nil
	return ChoosePlayer{whose}.update(m.keep(k))
}
