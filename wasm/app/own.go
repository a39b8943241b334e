package app

import (
	"slices"

	"pivotbench/core/lesson"
	"pivotbench/wasm/store"
)

// KeepLesson adds a lesson to the user's own lessons and opens it at one of its stops.
// An invalid lesson, or one too many, changes only the notices.
type KeepLesson struct {
	Lesson lesson.Lesson
	At     int
}

func (e KeepLesson) update(m Model) Model {
	made := e.Lesson.Clean()
	if faults := store.LessonFaults(&made); faults != nil {
		return m.refused(faults)
	}
	k := m.Kept
	k.Lessons = append(slices.Clip(k.Lessons), made)
	m.Notices = nil
	m, ok := m.kept(k)
	if !ok {
		return m
	}
	return TeachOwn{made, e.At}.update(m)
}

// TeachOwn opens one of the user's own lessons. If it is no longer in the list, only the
// notices change.
type TeachOwn struct {
	Lesson lesson.Lesson
	At     int
}

func (e TeachOwn) update(m Model) Model {
	if !slices.ContainsFunc(m.Kept.Lessons, func(l lesson.Lesson) bool { return l.Equal(&e.Lesson) }) {
		return m.gone("lesson")
	}
	m = Teach{lesson.Link{Lesson: e.Lesson, At: e.At}}.update(m)
	m.Own = true
	return m
}

// EditLesson replaces the open lesson, one of the user's own, with an edited version. An
// invalid lesson, or one that is no longer in the list, changes only the notices.
type EditLesson struct{ Lesson lesson.Lesson }

func (e EditLesson) update(m Model) Model {
	made := e.Lesson.Clean()
	if faults := store.LessonFaults(&made); faults != nil {
		return m.refused(faults)
	}
	lessons, ok := store.SwapLesson(m.Kept.Lessons, m.Lesson.Lesson, made)
	if !m.Own || !ok {
		return m.gone("lesson")
	}
	k := m.Kept
	k.Lessons = lessons
	m.Notices = nil
	if m, ok = m.kept(k); !ok {
		return m
	}
	return Revise{made}.update(m) // keepUp does not revise it if the list has an equal lesson
}
