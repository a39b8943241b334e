package app

import (
	"strings"

	"pivotbench/core/lesson"
	"pivotbench/core/link"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// An Offer is a cue that a link brought, until the user says whether to keep it.
type Offer struct {
	On  bool
	Cue store.CueRecord
}

// Brings reports whether a link brings something other than a shot: a cue, or a
// lesson.
func Brings(address string) bool {
	kind := link.Kind(address)
	return kind == store.CueKind || kind == lesson.Kind
}

// Bring is such a link opened. It changes nothing that is kept: a cue is offered,
// and a lesson opens.
type Bring struct{ Link string }

func (e Bring) update(m Model) Model {
	if link.Kind(e.Link) == lesson.Kind {
		brought, errs := lesson.ParseLink(e.Link)
		m = OpenSection{"lessons"}.update(Teach{Link: brought}.update(m))
		m.Notices = nil
		for _, err := range errs {
			m.Notices = append(m.Notices, phrase.Upper(err.Error())+".")
		}
		return m
	}
	cue, err := store.ReadCue(e.Link)
	if err != nil {
		m.Notices = strings.Split(err.Error(), "\n")
		return m
	}
	m.Offer = Offer{On: true, Cue: cue}
	return OpenSection{"cues"}.update(m)
}

// KeepOffer puts the cue that is offered on the list.
type KeepOffer struct{}

func (KeepOffer) update(m Model) Model {
	if !m.Offer.On {
		return m
	}
	cue := m.Offer.Cue
	return SaveCue{cue}.update(DropOffer{}.update(m))
}

// DropOffer leaves it.
type DropOffer struct{}

func (DropOffer) update(m Model) Model {
	m.Offer = Offer{}
	return m
}
