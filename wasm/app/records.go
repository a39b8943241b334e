package app

import (
	"slices"

	"pivotbench/core/lesson"
	"pivotbench/wasm/store"
)

// keep returns the model with new records, after ending the gesture and adding a step
// for undo. If a list has grown too long, it keeps the old records and says so in the
// notices.
func (m Model) keep(k store.Records) Model {
	m = m.settled()
	if err := k.Fits(m.Kept); err != nil {
		m.Notices = []string{"Not saved: " + err.Error() + "."}
		return m
	}
	return m.put(k)
}

// kept is keep, and reports whether it has kept the new records.
func (m Model) kept(k store.Records) (_ Model, ok bool) {
	next := m.keep(k)
	return next, next.Changes > m.Changes
}

// put is like keep, but does not end the gesture or check the lengths of the lists. It
// is for records that were already saved, here or elsewhere.
func (m Model) put(k store.Records) Model {
	m = m.remember(m.Scene)
	m.Kept = k
	m.Changes++
	return m
}

// Stored records whether the device refused to save the records. It adds a notice at the
// first refusal, and no further one until the device has saved them.
type Stored struct{ Refused bool }

// Unkept is the notice that the device refused to save the records.
const Unkept = "This device can't save your records. Export them before you leave."

func (e Stored) update(m Model) Model {
	if e.Refused && !m.Unkept {
		m = AlsoTell{[]string{Unkept}}.update(m)
	}
	m.Unkept = e.Refused
	return m
}

// refused returns the model with notices that say why a record cannot be saved.
func (m Model) refused(faults []string) Model {
	m.Notices = nil
	for _, what := range faults {
		m.Notices = append(m.Notices, "Not saved: "+what)
	}
	return m
}

// gone returns the model with a notice that a record no longer exists.
func (m Model) gone(what string) Model {
	m.Notices = []string{"That " + what + " is gone. It was deleted or changed, perhaps in another tab."}
	return m
}

// Elsewhere takes in the records that another tab has saved on the device. It merges
// them with the changes that this tab has made since Base, because the other tab may not
// have seen those. The steps for undo and redo keep their shots but not their records, so
// that they cannot revert the other tab's changes. While the example is shown, all of
// this is done to the user's own page behind it.
type Elsewhere struct {
	Base, Kept store.Records
	Notices    []string // what could not be read
}

func (e Elsewhere) update(m Model) Model {
	if m.Home != nil {
		home := *m.Home
		home.Model = Update(home.Model, e)
		m.Home = &home
		return m
	}
	if e.Notices != nil {
		m.Notices, m.Unread = e.Notices, true
	}
	before := m.Kept.Strokes
	m.Kept = store.Merge(e.Base, m.Kept, e.Kept)
	m.Changes++
	m = m.followRenamed(before)
	m.Past, m.Future = m.follow(m.Past), m.follow(m.Future)
	return m
}

// follow returns the steps for undo or redo with the current records in each. It leaves
// out steps that changed only records, so that every undo still has an effect. The last
// step is next to the current state.
func (m *Model) follow(steps []Snapshot) []Snapshot {
	var out []Snapshot
	for i, s := range steps {
		next := m.Settled
		if i+1 < len(steps) {
			next = steps[i+1].Scene
		}
		if s.Scene != next {
			out = append(out, Snapshot{Scene: s.Scene, Kept: m.Kept, Measuring: m.Measuring, Player: m.Player, SetUp: m.SetUp})
		}
	}
	return out
}

// whereabouts finds an entry in a changed list. If the entry is not there and the list
// has the same length as before, it returns the entry now in its place. Otherwise ok is
// false.
func whereabouts[T any](before, after []T, one T, same func(a, b T) bool) (now T, ok bool) {
	is := func(other T) bool { return same(one, other) }
	if slices.ContainsFunc(after, is) {
		return one, true
	}
	i := slices.IndexFunc(before, is)
	if i < 0 || len(before) != len(after) {
		return one, false
	}
	return after[i], true
}

// keepUp returns the model with what is open adapted to changed records: the stroke that
// is being corrected and the open lesson of the user's own. It closes what no longer
// exists. stepping means that the event is an undo or a redo, which sets the shot
// itself.
func (m Model) keepUp(before *Model, stepping bool) Model {
	if m.Changes == before.Changes {
		return m
	}
	if m.Correction.On {
		same := func(a, b store.Stroke) bool { return a == b }
		now, ok := whereabouts(before.Kept.Strokes, m.Kept.Strokes, m.Correction.Stroke, same)
		m.Correction.Stroke = now
		if !ok {
			m = LeaveStroke{}.update(m).gone("stroke")
		}
	}
	if m.Own {
		same := func(a, b lesson.Lesson) bool { return a.Equal(&b) }
		now, ok := whereabouts(before.Kept.Lessons, m.Kept.Lessons, m.Lesson.Lesson, same)
		if ok {
			m = Revise{now}.update(m)
		} else {
			if stepping {
				m.Back = Bench{} // keeps the shot of the step
			}
			m = EndLesson{}.update(m).gone("lesson")
		}
	}
	return m
}
