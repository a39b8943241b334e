package app

import (
	"slices"

	"pivotbench/core/scenario"
	"pivotbench/core/trial"
	"pivotbench/wasm/store"
)

// A Correction is a try that was noted wrongly, while it is on the bench to be
// set right.
type Correction struct {
	On   bool
	Try  store.Try
	Back scenario.Scenario // what was on the bench before
}

// EditTry puts a try on the bench, to be corrected with the controls.
type EditTry struct{ Try store.Try }

func (e EditTry) update(m Model) Model {
	if !slices.Contains(m.Kept.Tries, e.Try) {
		return m.gone("try")
	}
	m = m.settled()
	if !m.Correction.On {
		m.Correction.Back = m.Scene
	}
	m.Correction.On, m.Correction.Try = true, e.Try
	return Open{e.Try.Link}.update(m)
}

// LeaveTry leaves the try that is being corrected as it is.
type LeaveTry struct{}

func (LeaveTry) update(m Model) Model {
	if !m.Correction.On {
		return m
	}
	back := m.Correction.Back
	m.Correction = Correction{}
	return m.place(back)
}

// Note notes the scene as it stands with its outcome: as another try, or in place
// of the one that is being corrected.
type Note struct{ Outcome, When string }

func (e Note) update(m Model) Model {
	m = m.settled()
	try := store.Try{Link: m.Scene.Format(), Outcome: e.Outcome, When: e.When}
	if !m.Correction.On {
		return AddTry{try}.update(m)
	}
	try.When = m.Correction.Try.When
	if next := (ChangeTry{m.Correction.Try, try}).update(m); next.Notices == nil {
		return LeaveTry{}.update(next)
	} else {
		return next
	}
}

// AddTry notes a try.
type AddTry struct{ Try store.Try }

func (e AddTry) update(m Model) Model {
	m = m.settled()
	try := e.Try.Clean()
	if m.Notices = m.faults(try); m.Notices != nil {
		return m
	}
	k := m.Kept
	k.Tries = append(slices.Clip(k.Tries), try)
	return m.keep(k)
}

// ChangeTry puts another try in place of one that was noted wrongly.
type ChangeTry struct{ Was, Try store.Try }

func (e ChangeTry) update(m Model) Model {
	m = m.settled()
	try := e.Try.Clean()
	if m.Notices = m.faults(try); m.Notices != nil {
		return m
	}
	tries, ok := store.Swap(m.Kept.Tries, e.Was, try)
	if !ok {
		return m.gone("try")
	}
	k := m.Kept
	k.Tries = tries
	return m.keep(k)
}

// ClearTries takes all tries out.
type ClearTries struct{}

func (ClearTries) update(m Model) Model {
	k := m.Kept
	k.Tries = nil
	m.Notices = nil
	return m.keep(k)
}

// faults say why a try can't have been; nil: it can.
func (m Model) faults(try store.Try) []string {
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

// SetMarks is the marks' text changed.
type SetMarks struct{ Marks store.Marks }

func (e SetMarks) update(m Model) Model {
	k := m.Kept
	k.Marks = e.Marks.Clean()
	return m.keep(k)
}
