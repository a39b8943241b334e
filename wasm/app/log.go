package app

import (
	"slices"

	"pivotbench/core/scenario"
	"pivotbench/core/trial"
)

// A Logged is a try as it was noted down: the whole shot as a link, so that
// set-ups may differ from try to try, and what it came to.
type Logged struct {
	Link    string `json:"link"`
	Outcome string `json:"outcome"` // left, clean or right
	When    string `json:"when"`    // the device's date and time, for people
}

// Outcomes are the words of a log, by trial.Outcome.
var Outcomes = []string{trial.Left: "left", trial.Clean: "clean", trial.Right: "right"}

// Try is a logged try as the computation takes it; ok is false for an outcome
// that is not one of the words.
func (l Logged) Try() (t trial.Try, ok bool) {
	s, _ := scenario.Parse(l.Link)
	o := slices.Index(Outcomes, l.Outcome)
	return trial.Try{Shot: s.Shot(), Outcome: trial.Outcome(o)}, o >= 0
}

// AddTry notes a try down: the scene as it stands, and its outcome.
type AddTry struct{ Outcome, When string }

func (e AddTry) update(m Model) Model {
	m = Settle{}.update(m)
	m.Notices = nil
	s := m.Scene
	if !slices.Contains(Outcomes, e.Outcome) {
		return m
	}
	sh := s.Shot()
	if _, err := trial.Prior().Add(trial.Try{Shot: sh}); err != nil {
		m.Notices = []string{"Not noted: " + err.Error() + "."}
		return m
	}
	return m.logged(append(slices.Clip(m.Log), Logged{s.Format(), e.Outcome, e.When}))
}

// ChangeTry replaces a try; an empty Outcome deletes it.
type ChangeTry struct {
	Index   int
	Outcome string
}

func (e ChangeTry) update(m Model) Model {
	if e.Index < 0 || e.Index >= len(m.Log) {
		return m
	}
	m = Settle{}.update(m)
	log := slices.Clone(m.Log)
	if e.Outcome == "" {
		return m.logged(slices.Delete(log, e.Index, e.Index+1))
	}
	log[e.Index].Outcome = e.Outcome
	return m.logged(log)
}

// ReplaceLog puts another log in place of this one: imported, brought back
// from the device, or emptied.
type ReplaceLog struct{ Log []Logged }

func (e ReplaceLog) update(m Model) Model {
	m.Notices = nil
	return Settle{}.update(m).logged(e.Log)
}

// logged is the model with another log, the one before kept for undo.
func (m Model) logged(log []Logged) Model {
	m.Past = append(slices.Clip(m.Past), Snapshot{m.Scene, m.Log})
	m.Future = nil
	m.Log = log
	return m
}
