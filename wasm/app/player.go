package app

import (
	"slices"

	"pivotbench/core/player"
	"pivotbench/wasm/store"
)

// A PlayerForm is the state of the form for editing a player's record.
type PlayerForm struct {
	On     bool         // whether it is open
	New    bool         // whether its record is not in the list yet
	Player store.Player // the record before editing
	Units  string       // in or cm: units of its fields, even if the user changes units later
}

// OpenPlayerForm opens the form for a record in the list, or for a new record. If the
// record is no longer in the list, only the notices change.
type OpenPlayerForm struct {
	Player store.Player
	New    bool
}

func (e OpenPlayerForm) update(m Model) Model {
	if !e.New && !slices.Contains(m.Kept.Players, e.Player) {
		return m.gone("player")
	}
	m.PlayerForm = PlayerForm{On: true, New: e.New, Player: e.Player, Units: m.Scene.Units}
	return m
}

// ClosePlayerForm closes the form and discards its contents.
type ClosePlayerForm struct{}

func (ClosePlayerForm) update(m Model) Model {
	m.PlayerForm = PlayerForm{}
	return m
}

// SavePlayerForm saves the contents of the form, chooses that player and closes the form.
// They replace the edited record, or become a new record if that one no longer exists. If
// the name has changed, the player's strokes follow. An invalid record, a name that
// another player has, or one player too many changes only the notices.
type SavePlayerForm struct{ Player store.Player }

func (e SavePlayerForm) update(m Model) Model {
	p := e.Player.Clean()
	if faults := p.Faults(); faults != nil {
		return m.refused(faults)
	}
	was := m.PlayerForm.Player
	at := slices.Index(m.Kept.Players, was)
	if m.PlayerForm.New {
		at = -1
	}
	if other := m.Kept.PlayerAt(p.Name); other >= 0 && other != at {
		m.Notices = []string{"Not kept: there is a player called " + m.Kept.Players[other].Name + " already. Give one of the two another name, such as " + p.Name + " B."}
		return m
	}
	k := m.Kept
	k.Players = slices.Clone(k.Players)
	if at >= 0 {
		k.Players[at] = p
		k = renamed(k, was.Name, p.Name)
	} else {
		k.Players = append(k.Players, p)
	}
	lost := at < 0 && !m.PlayerForm.New
	m.Notices = nil
	m, ok := m.kept(k)
	if !ok {
		return m
	}
	if lost {
		m.Notices = []string{"The player you were editing is gone: deleted or changed meanwhile. What you typed is saved as a new record."}
	}
	m.Player = player.Key(p.Name)
	return ClosePlayerForm{}.update(m)
}

// renamed returns the records with the strokes of one name under another.
func renamed(k store.Records, was, now string) store.Records {
	if was == now {
		return k
	}
	k.Turns = slices.Clone(k.Turns)
	for i := range k.Turns {
		if player.Key(k.Turns[i].Player) == player.Key(was) {
			k.Turns[i].Player = now
		}
	}
	return k
}

// ChoosePlayer chooses by name the player whose strokes and card are shown, and who plays
// in a round. A name that no player has chooses nobody.
type ChoosePlayer struct{ Name string }

func (e ChoosePlayer) update(m Model) Model {
	m.Player = ""
	if m.Kept.PlayerAt(e.Name) >= 0 {
		m.Player = player.Key(e.Name)
		m.Round.Out = slices.DeleteFunc(slices.Clone(m.Round.Out), func(key string) bool { return key == m.Player })
	}
	return m
}

// Chosen returns the record of the chosen player. ok is false if nobody is chosen, or he
// was deleted meanwhile.
func (m *Model) Chosen() (p store.Player, ok bool) {
	if i := m.Kept.PlayerAt(m.Player); m.Player != "" && i >= 0 {
		return m.Kept.Players[i], true
	}
	return store.Player{}, false
}

// NoteTurn records strokes of the chosen player, all of one shot. In a round it is the next
// player's turn then. If one is invalid or impossible, or nobody is chosen, only the
// notices change.
type NoteTurn struct{ Strokes []store.Stroke }

func (e NoteTurn) update(m Model) Model {
	p, ok := m.Chosen()
	if !ok {
		return m.gone("player")
	}
	k := m.Kept
	k.Turns = slices.Clip(k.Turns)
	for _, stroke := range e.Strokes {
		turn := store.Turn{Player: p.Name, Stroke: stroke}.Clean()
		if m.Notices = m.faults(turn.Stroke); m.Notices != nil {
			return m
		}
		k.Turns = append(k.Turns, turn)
	}
	noted := k.Turns[len(m.Kept.Turns):]
	if m, ok = m.kept(k); !ok {
		return m
	}
	if m.Round.On {
		m.Round.Noted = append(slices.Clip(m.Round.Noted), noted...)
		m.Round.Noted = m.Round.Noted[max(0, len(m.Round.Noted)-mostNoted):]
	}
	return PassTurn{}.update(m)
}

// ClearTurns deletes the strokes of a player, for whom the fit starts anew. It changes
// nothing if there are none.
type ClearTurns struct{ Player string }

func (e ClearTurns) update(m Model) Model {
	k := m.Kept
	k.Turns = k.TurnsNotOf(e.Player)
	if len(k.Turns) == len(m.Kept.Turns) {
		return m
	}
	m.Notices = nil
	return m.keep(k)
}

// KeepFit saves with a player what his strokes have told. If the record is no longer in
// the list, only the notices change.
type KeepFit struct {
	Was  store.Player
	Fit  player.Player // see player.Fit.Learned
	When string
}

func (e KeepFit) update(m Model) Model {
	k := m.Kept
	var ok bool
	if k.Players, ok = store.Swap(k.Players, e.Was, e.Was.Learned(&e.Fit, e.When)); !ok {
		return m.gone("player")
	}
	m.Notices = nil
	return m.keep(k)
}
