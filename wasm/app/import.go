package app

import "pivotbench/wasm/store"

// An Import is a file of records that was chosen, until the user says what to do
// with it.
type Import struct {
	On   bool
	Name string // of the file
	Log  bool   // it is a log of strokes, and nothing else
	Kept store.Records
}

// OfferImport is such a file having been read.
type OfferImport struct {
	Name string
	Log  bool
	Kept store.Records
}

func (e OfferImport) update(m Model) Model {
	m.Notices = nil
	m.Import = Import{On: true, Name: e.Name, Log: e.Log, Kept: e.Kept}
	if m.Kept.Encode() == (store.Records{}).Encode() {
		return AddImport{}.update(m) // there is nothing to ask about
	}
	return m
}

// AddImport adds what the file has and the device has not.
type AddImport struct{}

func (AddImport) update(m Model) Model {
	if !m.Import.On {
		return m
	}
	theirs := m.Import.Kept
	if m.Kept.Marks != (store.Marks{}) {
		theirs.Marks = m.Kept.Marks
	}
	changes := m.Changes
	m = m.keep(store.Merge(store.Records{}, theirs, m.Kept))
	if m.Changes > changes {
		m.Import = Import{}
	}
	return m
}

// ReplaceByImport puts the file's records in place of the device's, which stay
// aside until the user lets go of them.
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

// PutAside puts records aside, with those that are there.
type PutAside struct{ Kept store.Records }

func (e PutAside) update(m Model) Model {
	if m.HasAside {
		e.Kept = store.Merge(store.Records{}, m.Aside, e.Kept)
	}
	m.Aside, m.HasAside = e.Kept, true
	return m
}

// DropImport leaves everything as it is.
type DropImport struct{}

func (DropImport) update(m Model) Model {
	m.Import = Import{}
	return m
}

// BringBack puts the records that an import replaced back in their place. Those
// that are there go aside.
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

// LetGo lets go of the records that an import replaced.
type LetGo struct{}

func (LetGo) update(m Model) Model {
	m.Aside, m.HasAside = store.Records{}, false
	m.Changes++
	return m
}

// Restore is what the device kept having been read, at the start.
type Restore struct {
	Kept     store.Records
	Aside    store.Records // what an import replaced
	HasAside bool
	Notices  []string // of what there could not be read
	Unread   bool     // something could not be read, now or before
}

func (e Restore) update(m Model) Model {
	m = AlsoTell{e.Notices}.update(m)
	m.Unread = e.Unread
	m.Kept, m.Aside, m.HasAside = e.Kept, e.Aside, e.HasAside
	return m
}
