package app

import (
	"slices"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
)

// A Bench is the shot from before a lesson was opened, which comes back when the lesson
// is closed. A lesson shows its own shots, cue, balls and table, because its captions
// and its question are about those. It keeps only the reader's units.
type Bench struct {
	On     bool // whether there is one
	Scene  scenario.Scenario
	Object bool // whether the object ball is shown
}

// Teach opens a lesson at one of its stops and shows the shot of that stop. The current
// shot comes back when the lesson is closed. The correction of a stroke, if there is
// one, is abandoned. Teach changes nothing for a lesson without stops.
type Teach struct{ Link lesson.Link }

func (e Teach) update(m Model) Model {
	if e.Link.Lesson.Stops() == 0 {
		return m
	}
	m = LeaveStroke{}.update(m.filmLeft().settled())
	if m.Lesson.Lesson.Stops() == 0 {
		m.Back = Bench{On: true, Scene: m.Scene, Object: m.Look.Object}
	}
	m.Lesson, m.Own = e.Link, false
	return Halt{At: e.Link.At}.update(m)
}

// Reopen opens a lesson at the stop where it was left, without changing the shot. Own
// says that it is one of the user's own lessons, and is ignored if it is no longer among
// them. Back is the shot that comes back when the lesson is closed. Reopen changes
// nothing for a lesson without stops.
type Reopen struct {
	Link lesson.Link
	Own  bool
	Back Bench
}

func (e Reopen) update(m Model) Model {
	if e.Link.Lesson.Stops() == 0 {
		return m
	}
	m.Lesson, m.Back = e.Link, e.Back
	m.Own = e.Own && slices.ContainsFunc(m.Kept.Lessons, func(l lesson.Lesson) bool { return l.Equal(&e.Link.Lesson) })
	m.Lesson.At = max(0, min(e.Link.At, e.Link.Lesson.Stops()-1))
	return m
}

// Halt goes to a stop of the open lesson and shows the shot of that stop. An index out
// of range means the first or the last stop. Halt changes nothing if no lesson is open.
type Halt struct{ At int }

func (e Halt) update(m Model) Model {
	stops := m.Lesson.Lesson.Stops()
	if stops == 0 {
		return m
	}
	m = m.settled()
	m.Lesson.At = max(0, min(e.At, stops-1))
	m.Notices, m.HasEarlier = nil, false
	return m.place(m.Lesson.Lesson.Scene(m.Lesson.At, m.LessonUnits()))
}

// Reply sets the control of the open lesson's question to the step nearest to Value,
// which is in SI units. Done ends the gesture. Reply changes nothing if no lesson with a
// question is open.
type Reply struct {
	Value float64
	Done  bool
}

func (e Reply) update(m Model) Model {
	if m.Lesson.Lesson.Question == (lesson.Question{}) {
		return m
	}
	q := &m.Lesson.Lesson.Question
	q.Put(&m.Scene, scenario.Find(q.Key).Snapped(e.Value, m.Scene.Units, 1))
	if e.Done {
		return m.settled()
	}
	return m
}

// EndLesson closes the lesson and brings back the shot from before it, in the units that
// the user has chosen since. Undo brings back the lesson's last shot. If no earlier shot
// was saved, the lesson's shot stays.
type EndLesson struct{}

func (EndLesson) update(m Model) Model {
	back, units := m.Back, m.Scene.Units
	if m.Lesson.Units != "" {
		units = back.Scene.Units // the lesson chose these units, not the user
	}
	m.Lesson, m.Own, m.Back = lesson.Link{}, false, Bench{}
	if !back.On {
		return m
	}
	back.Scene.Units = units
	m = m.settled()
	m.Look.Object, m.HasEarlier = back.Object, false
	return m.place(back.Scene)
}

// Revise replaces the open lesson with an edited version. It stays at the same stop, or
// moves to the last one if there are fewer.
type Revise struct{ Lesson lesson.Lesson }

func (e Revise) update(m Model) Model {
	m.Lesson.Lesson, m.Lesson.Shipped = e.Lesson, ""
	m.Lesson.At = max(0, min(m.Lesson.At, e.Lesson.Stops()-1))
	return m
}

// LessonUnits returns the units in which the open lesson is shown.
func (m *Model) LessonUnits() string {
	if m.Lesson.Units != "" {
		return m.Lesson.Units
	}
	return m.Scene.Units
}

// place returns the model with a scene as its settled shot. It shows the object ball if
// the scene changes any of the object ball's defaults.
func (m Model) place(scene scenario.Scenario) Model {
	m.Scene, m.Dragging = scene, false
	if def := scenario.Default(); scene.Object != def.Object || scene.Cut != def.Cut || scene.Pocket != def.Pocket {
		m.Look.Object = true // the sender meant it to be seen
	}
	return m.settled()
}
