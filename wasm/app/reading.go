package app

import (
	"slices"

	"pivotbench/wasm/store"
)

// AddReading adds a timing to the records. An invalid timing, or one too many, changes
// only the notices.
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

// ClearReadings deletes all timings of one kind: see store.Reading.Of. It changes
// nothing if there are none.
type ClearReadings struct{ Of string }

func (e ClearReadings) update(m Model) Model {
	k := m.Kept
	k.Readings = slices.DeleteFunc(slices.Clone(k.Readings), func(r store.Reading) bool { return r.Of == e.Of })
	if len(k.Readings) == len(m.Kept.Readings) {
		return m
	}
	return m.keep(k)
}

// SaveTable adds a table to the records, or replaces the record of the same name and
// day. An invalid record, or one too many, changes only the notices.
type SaveTable struct{ Table store.Table }

func (e SaveTable) update(m Model) Model {
	table := e.Table.Clean()
	if faults := table.Faults(); faults != nil {
		return m.refused(faults)
	}
	return m.keep(m.Kept.WithTable(table))
}

// SaveMeasured saves values that were measured on the named table. It changes the
// table's record for the day of When, or adds one. An invalid value changes only the
// notices.
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

// UseTable replaces the shot's table, ball and cloth with those of a record. Values that
// do not fit the table are adjusted, and the notices name them.
type UseTable struct{ Table store.Table }

func (e UseTable) update(m Model) Model {
	m = m.settled()
	e.Table.Lay(&m.Scene)
	return m.fitted()
}

// SetAll sets several controls as one step for undo. Values that cannot be read are
// skipped, and the notices name them.
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
