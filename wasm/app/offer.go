package app

import (
	"strings"

	"pivotbench/core/lesson"
	"pivotbench/core/link"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// An Offer is a cue from a link, waiting for the user's decision to save it or not.
type Offer struct {
	On  bool // whether there is one
	Cue store.CueRecord
}

// Brings reports whether a link carries a cue, a player or a lesson, and not a shot.
func Brings(address string) bool {
	kind := link.Kind(address)
	return kind == store.CueKind || kind == store.PlayerKind || kind == lesson.Kind
}

// Bring opens a link that carries a cue, a player or a lesson, and the section for it. It
// offers the cue or the player, or opens the lesson, and does not change the records. A
// link of a cue or a player that cannot be read changes only the notices. The example is
// closed first, since what is brought is the user's own.
type Bring struct{ Link string }

func (e Bring) update(m Model) Model {
	m = LeaveExample{}.update(m)
	if link.Kind(e.Link) == lesson.Kind {
		brought, errs := lesson.ParseLink(e.Link)
		m = OpenSection{"lessons"}.update(Teach{Link: brought}.update(m))
		m.Notices = nil
		for _, err := range errs {
			m.Notices = append(m.Notices, phrase.Upper(err.Error())+".")
		}
		return m
	}
	if link.Kind(e.Link) == store.PlayerKind {
		offered, err := store.ReadPlayer(e.Link)
		if err != nil {
			m.Notices = strings.Split(err.Error(), "\n")
			return m
		}
		m.Offered = offered
		return OpenSection{"players"}.update(m)
	}
	cue, err := store.ReadCue(e.Link)
	if err != nil {
		m.Notices = strings.Split(err.Error(), "\n")
		return m
	}
	m.Offer = Offer{On: true, Cue: cue}
	return OpenSection{"cues"}.update(m)
}

// KeepOffer adds the offered cue to the list and closes the offer. It changes nothing
// without an offer.
type KeepOffer struct{}

func (KeepOffer) update(m Model) Model {
	if !m.Offer.On {
		return m
	}
	cue := m.Offer.Cue
	return SaveCue{cue}.update(DropOffer{}.update(m))
}

// DropOffer closes the offer without saving the cue.
type DropOffer struct{}

func (DropOffer) update(m Model) Model {
	m.Offer = Offer{}
	return m
}

// KeepPlayer adds the offered player and his strokes, chooses him and closes the offer. If
// there is a player of that name, the record that was changed last stays, and no stroke is
// doubled. It changes nothing without an offer.
type KeepPlayer struct{}

func (KeepPlayer) update(m Model) Model {
	offered := m.Offered
	if offered.Players == nil {
		return m
	}
	twice := m.Kept.PlayersIn(offered)
	m.Notices = nil
	m, ok := m.kept(store.Merge(store.Records{}, offered, m.Kept))
	if !ok {
		return m
	}
	if twice != nil {
		m.Notices = []string{bothHave(twice)}
	}
	return ChoosePlayer{offered.Players[0].Name}.update(LeavePlayer{}.update(m))
}

// LeavePlayer closes the offer without adding the player.
type LeavePlayer struct{}

func (LeavePlayer) update(m Model) Model {
	m.Offered = store.Records{}
	return m
}
