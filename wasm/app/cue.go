package app

import (
	"slices"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

// A CueForm is the form in which a cue's record is edited.
type CueForm struct {
	On    bool
	New   bool            // of a record that is not on the list yet
	Cue   store.CueRecord // as it was before it was edited
	Units string          // in or cm: what its fields are in, whatever is chosen later
}

// OpenCueForm opens it for a record of the list, or for a new one.
type OpenCueForm struct {
	Cue store.CueRecord
	New bool
}

func (e OpenCueForm) update(m Model) Model {
	if !e.New && !slices.Contains(m.Kept.Cues, e.Cue) {
		return m.gone("record")
	}
	m.CueForm = CueForm{On: true, New: e.New, Cue: e.Cue, Units: m.Scene.Units}
	return m
}

// CloseCueForm closes it.
type CloseCueForm struct{}

func (CloseCueForm) update(m Model) Model {
	m.CueForm = CueForm{}
	return m
}

// SaveCueForm keeps what the form has come to, in place of the record it is of.
// Where that is gone meanwhile, what was typed is a record of its own.
type SaveCueForm struct{ Cue store.CueRecord }

func (e SaveCueForm) update(m Model) Model {
	cue := e.Cue.Clean()
	if faults := cue.Faults(); faults != nil {
		return m.refused(faults)
	}
	k := m.Kept
	var ok bool
	if k.Cues, ok = store.Swap(k.Cues, m.CueForm.Cue, cue); m.CueForm.New || !ok {
		k.Cues = append(slices.Clip(m.Kept.Cues), cue)
	}
	lost := !m.CueForm.New && !ok
	changes := m.Changes
	m.Notices = nil
	m = m.keep(k)
	if m.Changes == changes {
		return m
	}
	if lost {
		m.Notices = []string{"The record you were editing is gone: it was deleted or changed meanwhile. What you typed is saved as a new record."}
	}
	return CloseCueForm{}.update(m)
}

// SaveCue puts a record on the list.
type SaveCue struct{ Cue store.CueRecord }

func (e SaveCue) update(m Model) Model {
	cue := e.Cue.Clean()
	if faults := cue.Faults(); faults != nil {
		return m.refused(faults)
	}
	k := m.Kept
	k.Cues = append(slices.Clip(k.Cues), cue)
	return m.keep(k)
}

// ShowRecords has the records of a cue of the list in sight; or out of it, where
// they were.
type ShowRecords struct{ Cue string }

func (e ShowRecords) update(m Model) Model {
	if m.OpenedCue == e.Cue {
		e.Cue = ""
	}
	m.OpenedCue = e.Cue
	return m
}

// UseCue puts a cue on the bench, with its tip's width and friction, and
// others beside it.
type UseCue struct {
	Cue      scenario.CueSpec
	TipWidth unit.Length
	Chalk    float64
	Beside   []scenario.CueSpec
}

func (e UseCue) update(m Model) Model {
	m = m.settled()
	m.Scene = m.Scene.With(e.Cue)
	m.Scene.TipWidth, m.Scene.Chalk = e.TipWidth, e.Chalk
	return Compare{e.Beside}.update(m)
}

// Compare puts further cues beside the one on the bench, as many as there is
// room for, in place of those that were there.
type Compare struct{ Cues []scenario.CueSpec }

func (e Compare) update(m Model) Model {
	m.Scene.More = [len(m.Scene.More)]scenario.CueSpec{}
	copy(m.Scene.More[:], e.Cues)
	return m.settled()
}
