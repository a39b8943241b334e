package app

import (
	"slices"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

// A CueForm is the state of the form for editing a cue's record.
type CueForm struct {
	On    bool            // whether it is open
	New   bool            // whether its record is not in the list yet
	Cue   store.CueRecord // the record before editing
	Units string          // in or cm: units of its fields, even if the user changes units later
}

// OpenCueForm opens the form for a record in the list, or for a new record. If the
// record is no longer in the list, only the notices change.
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

// CloseCueForm closes the form and discards its contents.
type CloseCueForm struct{}

func (CloseCueForm) update(m Model) Model {
	m.CueForm = CueForm{}
	return m
}

// SaveCueForm saves the contents of the form and closes it. They replace the edited
// record, or become a new record if that one no longer exists. An invalid record, or one
// too many, changes only the notices.
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
	m.Notices = nil
	if m, ok = m.kept(k); !ok {
		return m
	}
	if lost {
		m.Notices = []string{"The record you were editing was deleted or changed. What you typed is saved as a new record."}
	}
	return CloseCueForm{}.update(m)
}

// SaveCue adds a record to the list of cues. An invalid record, or one too many, changes
// only the notices.
type SaveCue struct{ Cue store.CueRecord }

func (e SaveCue) update(m Model) Model { return SaveCues{[]store.CueRecord{e.Cue}}.update(m) }

// SaveCues is SaveCue for several records, as one step for undo.
type SaveCues struct{ Cues []store.CueRecord }

func (e SaveCues) update(m Model) Model {
	k := m.Kept
	k.Cues = slices.Clip(k.Cues)
	for _, cue := range e.Cues {
		cue = cue.Clean()
		if faults := cue.Faults(); faults != nil {
			return m.refused(faults)
		}
		k.Cues = append(k.Cues, cue)
	}
	return m.keep(k)
}

// ShowRecords expands a cue in the list to show its records, or collapses it if it is
// already expanded.
type ShowRecords struct{ Cue string }

func (e ShowRecords) update(m Model) Model {
	if m.OpenedCue == e.Cue {
		e.Cue = ""
	}
	m.OpenedCue = e.Cue
	return m
}

// UseCue makes a cue the current cue, with its tip width and tip friction, and replaces
// the cues that are compared with it.
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

// Compare replaces the cues that are compared with the current cue. It ignores cues
// beyond the number that a scenario can hold.
type Compare struct{ Cues []scenario.CueSpec }

func (e Compare) update(m Model) Model {
	m.Scene.More = [len(m.Scene.More)]scenario.CueSpec{}
	copy(m.Scene.More[:], e.Cues)
	return m.settled()
}
