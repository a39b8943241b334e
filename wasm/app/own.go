package app

import (
	"slices"

	"pivotbench/core/lesson"
)

// KeepLesson puts a lesson in the place of one's own; at the number of them it
// is a new one.
type KeepLesson struct {
	Index  int
	Lesson lesson.Lesson
}

func (e KeepLesson) update(m Model) Model {
	k := m.Kept
	if e.Index < 0 || e.Index > len(k.Lessons) {
		return m
	}
	if errs := e.Lesson.Check(); len(errs) > 0 {
		m.Notices = nil
		for _, err := range errs {
			m.Notices = append(m.Notices, "Not kept: "+err.Error())
		}
		return m
	}
	k.Lessons = slices.Clone(k.Lessons)
	if e.Index == len(k.Lessons) {
		k.Lessons = append(k.Lessons, e.Lesson)
	} else {
		k.Lessons[e.Index] = e.Lesson
	}
	m.Notices = nil
	return Settle{}.update(m).keep(k)
}

// DropLesson takes one of one's own lessons off the list.
type DropLesson struct{ Index int }

func (e DropLesson) update(m Model) Model {
	k := m.Kept
	if e.Index < 0 || e.Index >= len(k.Lessons) {
		return m
	}
	k.Lessons = slices.Delete(slices.Clone(k.Lessons), e.Index, e.Index+1)
	return Settle{}.update(m).keep(k)
}
