package app

import (
	"slices"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
)

// A Bench is what lies on the bench when a lesson is opened, to come back when the
// lesson is closed. A lesson shows its own shots, cue, balls and table, since its
// captions and its question are about those, and keeps only the reader's units.
type Bench struct {
	On     bool
	Scene  scenario.Scenario
	Object bool // the object ball is on the sheet
}

// Teach opens a lesson at one of its stops. What is on the bench comes back when
// the lesson is closed. A stroke that is being corrected is left as it is.
type Teach struct{ Link lesson.Link }

func (e Teach) update(m Model) Model {
	if e.Link.Lesson.Stops() == 0 {
		return m
	}
	m = LeaveStroke{}.update(m.settled())
	if m.Lesson.Lesson.Stops() == 0 {
		m.Back = Bench{On: true, Scene: m.Scene, Object: m.Look.Object}
	}
	m.Lesson, m.Own = e.Link, false
	return Halt{At: e.Link.At}.update(m)
}

// Reopen opens a lesson where it has come to, and leaves the shot as it is.
// It is one of one's own only while it is still among them. Back is what comes
// back when it is closed.
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

// Halt goes to a stop of the open lesson, or to its first or last when there
// are no more that way.
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

// Reply is the question's control being dragged, to the step nearest a value in
// SI; Done is the finger lifted.
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

// EndLesson closes the lesson and brings back what was on the bench before, in
// the units that are chosen now. The lesson's last shot can be had by Undo.
type EndLesson struct{}

func (EndLesson) update(m Model) Model {
	back, units := m.Back, m.Scene.Units
	if m.Lesson.Units != "" {
		units = back.Scene.Units // the lesson brought its own
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

// Revise is the open lesson having been edited.
type Revise struct{ Lesson lesson.Lesson }

func (e Revise) update(m Model) Model {
	m.Lesson.Lesson, m.Lesson.Shipped = e.Lesson, ""
	m.Lesson.At = max(0, min(m.Lesson.At, e.Lesson.Stops()-1))
	return m
}

// LessonUnits are what the open lesson is read in.
func (m *Model) LessonUnits() string {
	if m.Lesson.Units != "" {
		return m.Lesson.Units
	}
	return m.Scene.Units
}

// place puts a scene on the bench.
func (m Model) place(scene scenario.Scenario) Model {
	m.Scene, m.Dragging = scene, false
	if def := scenario.Default(); scene.Object != def.Object || scene.Cut != def.Cut || scene.Pocket != def.Pocket {
		m.Look.Object = true // whoever sent it meant it to be seen
	}
	return m.settled()
}
