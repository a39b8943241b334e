package app

import (
	"slices"

	"pivotbench/core/player"
)

// A Round is a class that plays at one table in turn: each stroke that is noted passes the
// turn to the next player.
type Round struct {
	On  bool
	Out []string // the keys of the players who sit out
}

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

// TakeBackTurn deletes the newest stroke of all players, and has the turn go back to whose
// it was. It changes nothing without strokes.
type TakeBackTurn struct{}

func (TakeBackTurn) update(m Model) Model {
	n := len(m.Kept.Turns)
	if n == 0 {
		return m
	}
	k := m.Kept
	last := k.Turns[n-1]
	k.Turns = slices.Clip(k.Turns[:n-1])
	m.Notices = nil
	return ChoosePlayer{last.Player}.update(m.keep(k))
}
