package app

import (
	"slices"

	"pivotbench/wasm/kept"
)

// AddReading notes a timing down.
type AddReading struct{ Reading kept.Reading }

func (e AddReading) update(m Model) Model {
	k := m.Kept
	k.Readings = append(slices.Clip(k.Readings), e.Reading)
	return Settle{}.update(m).keep(k)
}

// DropReading takes a timing off the list.
type DropReading struct{ Index int }

func (e DropReading) update(m Model) Model {
	k := m.Kept
	if e.Index < 0 || e.Index >= len(k.Readings) {
		return m
	}
	k.Readings = slices.Delete(slices.Clone(k.Readings), e.Index, e.Index+1)
	return Settle{}.update(m).keep(k)
}

// ClearReadings takes all timings for one thing off the list.
type ClearReadings struct{ Of string }

func (e ClearReadings) update(m Model) Model {
	k := m.Kept
	k.Readings = slices.DeleteFunc(slices.Clone(k.Readings), func(r kept.Reading) bool { return r.Of == e.Of })
	if len(k.Readings) == len(m.Kept.Readings) {
		return m
	}
	return Settle{}.update(m).keep(k)
}

// SaveTable puts a record on the list, in place of that of the same name and
// day.
type SaveTable struct{ Table kept.Table }

func (e SaveTable) update(m Model) Model {
	return Settle{}.update(m).keep(m.Kept.WithTable(e.Table))
}

// DropTable takes a record off the list.
type DropTable struct{ Index int }

func (e DropTable) update(m Model) Model {
	k := m.Kept
	if e.Index < 0 || e.Index >= len(k.Tables) {
		return m
	}
	k.Tables = slices.Delete(slices.Clone(k.Tables), e.Index, e.Index+1)
	return Settle{}.update(m).keep(k)
}

// UseTable puts a record's table under the shot.
type UseTable struct{ Index int }

func (e UseTable) update(m Model) Model {
	if e.Index < 0 || e.Index >= len(m.Kept.Tables) {
		return m
	}
	m = Settle{}.update(m)
	m.Kept.Tables[e.Index].Lay(&m.Scene)
	m.Notices = nil
	for _, p := range m.Scene.Settle() {
		m.Notices = append(m.Notices, p.Error())
	}
	return Settle{}.update(m)
}

// SetAll is several values put in the shot in one step, to be undone in one.
type SetAll struct{ Sets []Setting }

func (e SetAll) update(m Model) Model {
	m = Settle{}.update(m)
	var notices []string
	for _, s := range e.Sets {
		m = Set{Key: s.Key, Text: s.Text}.update(m)
		notices = append(notices, m.Notices...)
	}
	m.Notices = notices
	return Settle{}.update(m)
}
