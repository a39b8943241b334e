package app

import (
	"slices"

	"pivotbench/core/sitting"
	"pivotbench/wasm/store"
)

// A Sitting is what was recorded in one go: its strokes share a set-up.
type Sitting struct {
	Strokes []int // indices in Kept.Strokes
	SetUp   sitting.SetUp
	On      bool // whether it goes on: the next stroke belongs to it
}

// Sittings returns the sittings of the recorded strokes, the oldest first. Exactly one of
// them is On; it is the only one that may have no strokes.
func (m *Model) Sittings() []Sitting {
	var moments []string
	for i := range m.Kept.Strokes {
		moments = append(moments, m.Kept.Strokes[i].When)
	}
	for i := range m.Kept.Checks {
		moments = append(moments, m.Kept.Checks[i].When)
	}
	moments = append(moments, m.Now)
	numbers := store.Sittings(moments)
	on := numbers[len(numbers)-1]
	if m.Now == "" { // nobody has told the time: the newest goes on
		on = slices.Max(numbers)
	}
	all := make([]Sitting, slices.Max(numbers)+1)
	for n := range all {
		all[n] = Sitting{SetUp: m.SetUp, On: n == on}
	}
	for i, n := range numbers[:len(m.Kept.Strokes)] {
		all[n].Strokes = append(all[n].Strokes, i)
	}
	for i, n := range numbers[len(m.Kept.Strokes) : len(numbers)-1] {
		narrow(&all[n].SetUp, &m.Kept.Checks[i])
	}
	return slices.DeleteFunc(all, func(t Sitting) bool { return t.Strokes == nil && !t.On })
}

// SittingOn returns the sitting that goes on.
func (m *Model) SittingOn() Sitting {
	all := m.Sittings()
	return all[slices.IndexFunc(all, func(t Sitting) bool { return t.On })]
}

// Shown returns the index of the sitting that is shown: the one that goes on, or the
// newest one until that has strokes.
func Shown(all []Sitting) int {
	i := slices.IndexFunc(all, func(t Sitting) bool { return t.On })
	for all[i].Strokes == nil && i > 0 {
		i--
	}
	return i
}

// narrow applies a check to the set-up of its sitting. A check that knows less than the
// set-up changes nothing.
func narrow(u *sitting.SetUp, c *store.Check) {
	for i := range Sures {
		v, err := c.Value()
		if at := Sures[i].at(u); Sures[i].Key == c.Of && err == nil {
			*at = min(*at, v)
		}
	}
}

// Clocked tells the model the time. It has no clock of its own.
type Clocked struct{ When string }

func (e Clocked) update(m Model) Model { return m.clocked(e.When) }

// clocked returns the model with the time set, if that is known. It never goes back.
func (m Model) clocked(when string) Model {
	if when != "" && (m.Now == "" || store.Earlier(m.Now, when) < 0) {
		m.Now = when
	}
	return m
}
