package app

import (
	"pivotbench/core/scenario"
	"pivotbench/core/stat"
)

// A Mirror is everything that a canvas in the page shows. As an event, it sets the
// canvas's own model to show it.
type Mirror struct {
	Link    string // the shot, as a link
	Earlier string // the shot kept for comparison, as a link; empty means none
	Look    Look
	Clock   Clock  // only On and Time
	Marks   string // what is shown of a sitting: see Model.OnSheet
	Ratios  stat.Interval[float64]
}

// Mirrored returns the Mirror of what the model shows.
func (m *Model) Mirrored() Mirror {
	out := Mirror{Link: m.Scene.Format(), Look: m.Look, Ratios: m.Ratios, Marks: m.OnSheet().format()}
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

// GlidesFrom reports whether the sheet shows a smooth transition from the shot of the
// model before. It does so between the stops of a lesson.
func (m *Model) GlidesFrom(before *Model) bool {
	return m.Lesson.Lesson.Stops() > 0 &&
		(m.Lesson.At != before.Lesson.At || !m.Lesson.Lesson.Equal(&before.Lesson.Lesson))
}
