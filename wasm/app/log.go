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

// A CueRecord is a cue as it was measured, or typed in, once. Measurements of
// one cue at different times stay apart: a new tip changes it. Values carry
// their units, as in a link.
type CueRecord struct {
	Name  string `json:"name"`
	Pivot string `json:"pivot"` // natural pivot length
	From  string `json:"from"`  // its 90 % interval; empty: not known
	To    string `json:"to"`
	At    string `json:"at"`   // the offset it holds at, in ball radii
	How   string `json:"how"`  // gate, marks or typed
	Link  string `json:"link"` // the cue's other values: a scenario
	When  string `json:"when"`
}

// Kept is what stays on the device and travels in a file. It is never changed
// in place.
type Kept struct {
	V     int         `json:"v"`
	Tries []Logged    `json:"tries"`
	Cues  []CueRecord `json:"cues"`
	Marks MarksText   `json:"marks"`
}

// Outcomes are the words of a log, by trial.Outcome.
var Outcomes = []string{trial.Left: "left", trial.Clean: "clean", trial.Right: "right"}

// Try is a logged try as the computation takes it, about the pivot length at
// one reference offset; ok is false for an outcome that is not one of the
// words.
func (l Logged) Try(reference float64) (t trial.Try, ok bool) {
	s, _ := scenario.Parse(l.Link)
	s.PivotSpin = reference
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
	k := m.Kept
	k.Tries = append(slices.Clip(k.Tries), Logged{s.Format(), e.Outcome, e.When})
	return m.keep(k)
}

// ChangeTry replaces a try; an empty Outcome deletes it.
type ChangeTry struct {
	Index   int
	Outcome string
}

func (e ChangeTry) update(m Model) Model {
	k := m.Kept
	if e.Index < 0 || e.Index >= len(k.Tries) {
		return m
	}
	k.Tries = slices.Clone(k.Tries)
	if e.Outcome == "" {
		k.Tries = slices.Delete(k.Tries, e.Index, e.Index+1)
	} else {
		k.Tries[e.Index].Outcome = e.Outcome
	}
	return Settle{}.update(m).keep(k)
}

// SaveCue puts a record on the list.
type SaveCue struct{ Cue CueRecord }

func (e SaveCue) update(m Model) Model {
	k := m.Kept
	k.Cues = append(slices.Clip(k.Cues), e.Cue)
	return Settle{}.update(m).keep(k)
}

// DropCue takes a record off the list.
type DropCue struct{ Index int }

func (e DropCue) update(m Model) Model {
	k := m.Kept
	if e.Index < 0 || e.Index >= len(k.Cues) {
		return m
	}
	k.Cues = slices.Delete(slices.Clone(k.Cues), e.Index, e.Index+1)
	return Settle{}.update(m).keep(k)
}

// UseCue puts a record's cue on the bench.
type UseCue struct{ Index int }

func (e UseCue) update(m Model) Model {
	if e.Index < 0 || e.Index >= len(m.Kept.Cues) {
		return m
	}
	c := m.Kept.Cues[e.Index]
	m = Settle{}.update(m)
	from, _ := scenario.Parse(c.Link)
	m.Scene.CueMass, m.Scene.Tip, m.Scene.TipWidth = from.CueMass, from.Tip, from.TipWidth
	m.Scene.Bounce, m.Scene.Chalk = from.Bounce, from.Chalk
	for _, s := range []Setting{{"pivot", c.Pivot}, {"pivotspin", c.At}, {"name", c.Name}} {
		m = Set{Key: s.Key, Text: s.Text}.update(m)
	}
	return Settle{}.update(m)
}

// Replace puts other records in place of these: imported, brought back from
// the device, or emptied.
type Replace struct{ Kept Kept }

func (e Replace) update(m Model) Model {
	m.Notices = nil
	return Settle{}.update(m).keep(e.Kept)
}

// keep is the model with other records, the ones before kept for undo.
func (m Model) keep(k Kept) Model {
	m.Past = append(slices.Clip(m.Past), Snapshot{m.Scene, m.Kept})
	m.Future = nil
	m.Kept = k
	return m
}
