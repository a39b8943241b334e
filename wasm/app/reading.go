package app

import (
	"slices"

	"pivotbench/wasm/store"
)

// AddReading notes a timing down.
type AddReading struct{ Reading store.Reading }

func (e AddReading) update(m Model) Model {
	reading := e.Reading.Clean()
	if faults := reading.Faults(); faults != nil {
		return m.refused(faults)
	}
	k := m.Kept
	k.Readings = append(slices.Clip(k.Readings), reading)
	return m.keep(k)
}

// ClearReadings takes all timings for one thing off the list.
type ClearReadings struct{ Of string }

func (e ClearReadings) update(m Model) Model {
	k := m.Kept
	k.Readings = slices.DeleteFunc(slices.Clone(k.Readings), func(r store.Reading) bool { return r.Of == e.Of })
	if len(k.Readings) == len(m.Kept.Readings) {
		return m
	}
	return m.keep(k)
}

// SaveTable puts a record on the list, in place of that of the same name and
// day.
type SaveTable struct{ Table store.Table }

func (e SaveTable) update(m Model) Model {
	table := e.Table.Clean()
	if faults := table.Faults(); faults != nil {
		return m.refused(faults)
	}
	return m.keep(m.Kept.WithTable(table))
}

// SaveMeasured keeps values that were measured with the table of a name, on the day
// of When: in its record of that day, or in one of its own.
type SaveMeasured struct {
	Table, When string
	Sets        []Setting
}

func (e SaveMeasured) update(m Model) Model {
	k := m.Kept
	for _, set := range e.Sets {
		table, err := k.Measured(&m.Scene, e.Table, e.When, set.Key, set.Text)
		if err != nil {
			m.Notices = []string{err.Error()}
			return m
		}
		table = table.Clean()
		if faults := table.Faults(); faults != nil {
			return m.refused(faults)
		}
		k = k.WithTable(table)
	}
	return m.keep(k)
}

// UseTable puts a record's table under the shot.
type UseTable struct{ Table store.Table }

func (e UseTable) update(m Model) Model {
	m = m.settled()
	e.Table.Lay(&m.Scene)
	m.Notices = nil
	for _, p := range m.Scene.Fit() {
		m.Notices = append(m.Notices, p.Error())
	}
	return m.settled()
}

// SetAll is several values put in the shot in one step, to be undone in one.
type SetAll struct{ Sets []Setting }

func (e SetAll) update(m Model) Model {
	m = m.settled()
	var notices []string
	for _, s := range e.Sets {
		m = Set{Key: s.Key, Text: s.Text}.update(m)
		notices = append(notices, m.Notices...)
	}
	m.Notices = notices
	return m.settled()
}
