package app

import (
	"slices"

	"pivotbench/core/lesson"
	"pivotbench/wasm/store"
)

// keep is the model with other records, the gesture before them over, and what was
// kept there for undo. Records that do not fit are refused.
func (m Model) keep(k store.Records) Model {
	m = m.settled()
	if err := k.Fits(m.Kept); err != nil {
		m.Notices = []string{"Not kept: " + err.Error() + "."}
		return m
	}
	return m.put(k)
}

// put is keep for records that were kept before, here or elsewhere, so that there
// may be more of them than are added to.
func (m Model) put(k store.Records) Model {
	m = m.remember(m.Scene)
	m.Kept = k
	m.Changes++
	return m
}

// Stored is the device having been given the records: whether it refused to keep
// them. Told once, it holds until the device takes them.
type Stored struct{ Refused bool }

// Unkept is said when the device refuses to keep the records.
const Unkept = "This device refused to keep this: export it before you leave."

func (e Stored) update(m Model) Model {
	if e.Refused && !m.Unkept {
		m = AlsoTell{[]string{Unkept}}.update(m)
	}
	m.Unkept = e.Refused
	return m
}

// refused is the model with what is wrong with a record that was to be kept.
func (m Model) refused(faults []string) Model {
	m.Notices = nil
	for _, what := range faults {
		m.Notices = append(m.Notices, "Not kept: "+what)
	}
	return m
}

// gone is the model with word that what was meant is no longer there.
func (m Model) gone(what string) Model {
	m.Notices = []string{"That " + what + " is gone: it was deleted or changed meanwhile, perhaps in another tab."}
	return m
}

// Elsewhere is another tab having changed what the device keeps. What is kept is
// that with the changes made here since Base, which the other may not have seen.
// Undo stays with the scene from here on: it must not take back what was done
// there.
type Elsewhere struct {
	Base, Kept store.Records
	Notices    []string // of what there could not be read
}

func (e Elsewhere) update(m Model) Model {
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

// follow gives each step the records of now, and leaves out those that were about
// records alone: an undo always does something. The last step is the one next to
// now.
func (m *Model) follow(steps []Snapshot) []Snapshot {
	var out []Snapshot
	for i, s := range steps {
		next := m.Settled
		if i+1 < len(steps) {
			next = steps[i+1].Scene
		}
		if s.Scene != next {
			out = append(out, Snapshot{Scene: s.Scene, Kept: m.Kept, Measuring: m.Measuring})
		}
	}
	return out
}

// whereabouts finds what has become of an entry of a list: itself, or what it was
// changed into in its place. ok is false when it is gone.
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

// keepUp has what is open follow the records: the stroke that is being corrected and
// the lesson of one's own. stepping is an undo or a redo, which says itself what is
// on the bench.
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
				m.Back = Bench{} // the shot is that of the step
			}
			m = EndLesson{}.update(m).gone("lesson")
		}
	}
	return m
}
