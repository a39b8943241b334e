package app

import (
	"pivotbench/core/scenario"
	"pivotbench/core/stat"
)

// A Mirror is what a canvas in the page has to show, and the event of being
// given it.
type Mirror struct {
	Link    string // the shot, as the text of its link
	Earlier string // the shot kept for comparison, likewise; empty: none
	Look    Look
	Clock   Clock  // of it, On and Time
	Marks   string // of a sitting: see Model.MarksShown
	Ratios  stat.Interval[float64]
}

// Mirrored returns what the model shows.
func (m *Model) Mirrored() Mirror {
	out := Mirror{Link: m.Scene.Format(), Look: m.Look, Ratios: m.Ratios, Marks: m.MarksShown()}
	if m.HasEarlier {
		out.Earlier = m.Earlier.Format()
	}
	if m.Clock.On {
		out.Clock = Clock{On: true, Time: m.Clock.Time}
	}
	return out
}

func (e Mirror) update(m Model) Model {
	m.Scene, _ = scenario.Parse(e.Link)
	m.Settled, m.Dragging = m.Scene, false
	m.Ratios, m.Marked = e.Ratios, e.Marks
	m.Earlier, m.HasEarlier = scenario.Scenario{}, e.Earlier != ""
	if m.HasEarlier {
		m.Earlier, _ = scenario.Parse(e.Earlier)
	}
	m = Show{e.Look}.update(m)
	if e.Clock.On {
		return Seek{e.Clock.Time}.update(m)
	}
	return Rest{}.update(m)
}

// GlidesFrom reports whether the sheet is to move to the model's shot from the one
// before, rather than jump: it does from one stop of a lesson to another.
func (m *Model) GlidesFrom(before *Model) bool {
	return m.Lesson.Lesson.Stops() > 0 &&
		(m.Lesson.At != before.Lesson.At || !m.Lesson.Lesson.Equal(&before.Lesson.Lesson))
}
