package app

import (
	"slices"

	"pivotbench/core/scenario"
	"pivotbench/core/trial"
	"pivotbench/wasm/kept"
)

// AddTry notes a try down: the scene as it stands, and its outcome.
type AddTry struct{ Outcome, When string }

func (e AddTry) update(m Model) Model {
	m = Settle{}.update(m)
	try := kept.Try{Link: m.Scene.Format(), Outcome: e.Outcome, When: e.When}
	if m.Notices = m.faults(try); m.Notices != nil {
		return m
	}
	k := m.Kept
	k.Tries = append(slices.Clip(k.Tries), try)
	return m.keep(k)
}

// CorrectTry puts another try in place of one that was noted down wrongly.
type CorrectTry struct {
	Index int
	Try   kept.Try
}

func (e CorrectTry) update(m Model) Model {
	if e.Index < 0 || e.Index >= len(m.Kept.Tries) {
		return m
	}
	m = Settle{}.update(m)
	if m.Notices = m.faults(e.Try); m.Notices != nil {
		return m
	}
	k := m.Kept
	k.Tries = slices.Clone(k.Tries)
	k.Tries[e.Index] = e.Try
	return m.keep(k)
}

// faults say why a try can't have been; nil: it can.
func (m Model) faults(try kept.Try) []string {
	t, ok := try.Trial(m.Scene.PivotSpin)
	if !ok {
		return []string{"Not noted: “" + try.Outcome + "” is none of left, clean and right."}
	}
	if _, err := trial.Prior().Add(t); err != nil {
		s, _ := scenario.Parse(try.Link)
		said := "Not noted: " + err.Error()
		for _, key := range []string{"bridge", "grip", "speed", "gate"} {
			said += "; " + key + " " + scenario.Find(key).Shown(&s)
		}
		return []string{said + "."}
	}
	return nil
}

// DeleteTry takes a try out.
type DeleteTry struct{ Index int }

func (e DeleteTry) update(m Model) Model {
	k := m.Kept
	if e.Index < 0 || e.Index >= len(k.Tries) {
		return m
	}
	k.Tries = slices.Delete(slices.Clone(k.Tries), e.Index, e.Index+1)
	return Settle{}.update(m).keep(k)
}

// Replace puts other records in place of these: imported, brought back from
// the device, or emptied.
type Replace struct{ Kept kept.Records }

func (e Replace) update(m Model) Model {
	m.Notices = nil
	return Settle{}.update(m).keep(e.Kept)
}

// keep is the model with other records, the ones before kept for undo.
func (m Model) keep(k kept.Records) Model {
	m = m.remember(m.Scene)
	m.Kept = k
	m.Changes++
	return m
}

// Elsewhere is another tab of this device having changed what is kept. Undo
// stays with the scene from here on: it must not take back what was done
// there.
type Elsewhere struct{ Kept kept.Records }

func (e Elsewhere) update(m Model) Model {
	m.Kept = e.Kept
	m.Changes++
	m.Past, m.Future = e.follow(m.Past, &m), e.follow(m.Future, &m)
	return m
}

// follow gives each step the records of the other tab, and leaves out those
// that were about records alone: an undo always does something. The last step
// is the one next to now.
func (e Elsewhere) follow(steps []Snapshot, now *Model) []Snapshot {
	var out []Snapshot
	for i, s := range steps {
		next := now.Settled
		if i+1 < len(steps) {
			next = steps[i+1].Scene
		}
		if s.Scene != next {
			out = append(out, Snapshot{Scene: s.Scene, Kept: e.Kept})
		}
	}
	return out
}

// SetMarks is the marks' text changed.
type SetMarks struct{ Marks kept.Marks }

func (e SetMarks) update(m Model) Model {
	k := m.Kept
	k.Marks = e.Marks
	return Settle{}.update(m).keep(k)
}
