package app

import (
	"strings"

	"pivotbench/wasm/store"
)

// An Import is a file of records that the user has chosen, waiting for the user's
// decision to add it or to replace the records with it.
type Import struct {
	On   bool   // whether there is one
	Name string // name of the file
	Log  bool   // whether it is a log of strokes, without other records
	Kept store.Records
}

// OfferImport asks the user what to do with a file that was read. If the device has no
// records, it adds the file's records without asking.
type OfferImport struct {
	Name string
	Log  bool
	Kept store.Records
}

func (e OfferImport) update(m Model) Model {
	m.Notices = nil
	m.Import = Import{On: true, Name: e.Name, Log: e.Log, Kept: e.Kept}
	if m.Kept.Encode() == (store.Records{}).Encode() {
		return AddImport{}.update(m)
	}
	return m
}

// AddImport adds the records of the file that the device does not have. The device's
// marks stay if there are any. It changes nothing without a file, and only the notices
// if the records would be too many.
type AddImport struct{}

func (AddImport) update(m Model) Model {
	if !m.Import.On {
		return m
	}
	theirs := m.Import.Kept
	if m.Kept.Marks != (store.Marks{}) {
		theirs.Marks = m.Kept.Marks
	}
	twice := m.Kept.PlayersIn(theirs)
	m, ok := m.kept(store.Merge(store.Records{}, theirs, m.Kept))
	if ok {
		m.Import = Import{}
		if twice != nil {
			m.Notices = []string{bothHave(twice)}
		}
	}
	return m
}

// bothHave says which players were here and came in, with different records.
func bothHave(names []string) string {
	return "Here already, so the newer record was kept: " + strings.Join(names, ", ") + ". If these are two people, undo, and give one of them another name first."
}

// ReplaceByImport replaces the device's records with those of the file; a log of strokes
// replaces only the strokes. The old records are set aside until the user discards them.
// It changes nothing without a file.
type ReplaceByImport struct{}

func (ReplaceByImport) update(m Model) Model {
	if !m.Import.On {
		return m
	}
	next, before := m.Import.Kept, m.Kept
	if m.Import.Log {
		next = m.Kept
		next.Strokes = m.Import.Kept.Strokes
	}
	m.Import, m.Notices = Import{}, nil
	return PutAside{before}.update(m.settled().put(next))
}

// PutAside sets records aside, merged with those that are already set aside.
type PutAside struct{ Kept store.Records }

func (e PutAside) update(m Model) Model {
	if m.HasAside {
		e.Kept = store.Merge(store.Records{}, m.Aside, e.Kept)
	}
	m.Aside, m.HasAside = e.Kept, true
	return m
}

// DropImport discards the chosen file and leaves the records unchanged.
type DropImport struct{}

func (DropImport) update(m Model) Model {
	m.Import = Import{}
	return m
}

// BringBack restores the records that an import replaced and sets the current ones
// aside, if there are any. It changes nothing if no records are set aside.
type BringBack struct{}

func (BringBack) update(m Model) Model {
	if !m.HasAside {
		return m
	}
	m.Notices = nil
	aside, now := m.Aside, m.Kept
	m.Aside, m.HasAside = now, now.Encode() != (store.Records{}).Encode()
	return m.settled().put(aside)
}

// LetGo discards the records that an import replaced.
type LetGo struct{}

func (LetGo) update(m Model) Model {
	m.Aside, m.HasAside = store.Records{}, false
	m.Changes++
	return m
}

// Restore sets the records to those that were read from the device when the page
// started, and adds to the notices. The cue of the newest stroke is the one that is
// measured.
type Restore struct {
	Kept     store.Records
	Aside    store.Records // records that an import replaced
	HasAside bool
	Notices  []string // what could not be read
	Unread   bool     // whether something could not be read, now or earlier
}

func (e Restore) update(m Model) Model {
	m = AlsoTell{e.Notices}.update(m)
	m.Unread = e.Unread
	m.Kept, m.Aside, m.HasAside = e.Kept, e.Aside, e.HasAside
	return m.measuringNewest()
}
