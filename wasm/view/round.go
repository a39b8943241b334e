package view

import (
	"slices"
	"strconv"
	"strings"

	"pivotbench/core/player"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// A Round is a class that plays in turn, as the page shows it.
type Round struct {
	Rows []RoundRow
	Head string // whose turn it is
	Last string // its newest stroke; empty when there is none to take back
}

// A RoundRow is the button of a player in a round.
type RoundRow struct {
	Index  int    // among all players
	Words  string // the name, and how many strokes there are
	Full   string // the same for those who can't see the row
	Chosen bool
	Out    bool // sits out
}

// RoundOf returns the round of a model, with the players whose name contains find and the
// one whose turn it is. It is empty outside a round, or without players.
func RoundOf(m *app.Model, find string) Round {
	if !m.Round.On || len(m.Kept.Players) == 0 {
		return Round{}
	}
	r := Round{Head: "Whose stroke is it? Tap a name"}
	for i, p := range m.Kept.Players {
		key := player.Key(p.Name)
		n := len(m.Kept.TurnsOf(p.Name))
		row := RoundRow{Index: i, Chosen: key == m.Player, Out: slices.Contains(m.Round.Out, key)}
		row.Words = p.Name + " · " + strconv.Itoa(n)
		row.Full = p.Name + ", " + phrase.Count(n, "stroke", "strokes")
		if row.Out {
			row.Words, row.Full = p.Name+" · out", p.Name+", sits out"
		}
		if row.Chosen {
			r.Head = p.Name + ": stroke " + strconv.Itoa(n+1)
		}
		if row.Chosen || strings.Contains(key, player.Key(find)) {
			r.Rows = append(r.Rows, row)
		}
	}
	if last := m.LastTurn(); last >= 0 {
		r.Last = turnWords(m, last)
	}
	return r
}

// turnWords names a player's stroke by its index among those of all players, such as
// "Ann, stroke 4: 1.0 in".
func turnWords(m *app.Model, at int) string {
	name, upTo := m.Kept.Turns[at].Player, store.Records{Turns: m.Kept.Turns[:at+1]}
	rows := TurnRows(upTo.TurnsOf(name), m.Scene.Units)
	row := rows[len(rows)-1]
	return name + ", stroke " + row.Number + ": " + row.Mark
}

// CanTakeTurns reports whether there are players enough to play in turn.
func CanTakeTurns(m *app.Model) bool { return len(m.Kept.Players) > 1 }

// ListState returns what the list of players and the round depend on, as text. find is the
// name that is searched for.
func ListState(m *app.Model, find string) string {
	return strings.Join(append([]string{strconv.Itoa(m.Changes), strconv.FormatBool(m.Round.On), m.Scene.Units, m.Player, find}, m.Round.Out...), "\n")
}
