package app

import (
	"pivotbench/core/replay"
	"pivotbench/core/unit"
)

// A Clock is where the play-back of the shot stands. It is never in a link.
type Clock struct {
	On      bool // the sheet shows the shot at Time
	Running bool
	Slow    bool      // at a quarter of its speed
	Time    unit.Span // since the tip met the ball
}

// slower is the share of its speed at which a shot is played slowly.
const slower = 0.25

// Timeline is the scene in time; the error is why there is nothing to play.
func (m *Model) Timeline() (*replay.Timeline, error) {
	s := m.Scene.Shot()
	return replay.Of(&s, m.Play(), m.Scene.GearTable(), m.Look.Object)
}

// Frame is the moment the sheet shows, or nil while it shows the shot at rest.
func (m *Model) Frame() *replay.Frame {
	if !m.Clock.On {
		return nil
	}
	t, err := m.Timeline()
	if err != nil {
		return nil
	}
	f := t.At(m.Clock.Time)
	return &f
}

// Run plays the shot on, or anew once it is over.
type Run struct{}

func (Run) update(m Model) Model {
	t, err := m.Timeline()
	if err != nil {
		return m
	}
	if !m.Clock.On || m.Clock.Time >= t.To {
		m.Clock.Time = t.From
	}
	m.Clock.On, m.Clock.Running = true, true
	return m
}

// PlayOrHold runs the shot, or holds it where it runs. For a user who asks for less
// motion it goes on by one event instead.
type PlayOrHold struct{ LessMotion bool }

func (e PlayOrHold) update(m Model) Model {
	switch {
	case m.Clock.Running:
		return Pause{}.update(m)
	case e.LessMotion:
		return Step{}.update(m)
	}
	return Run{}.update(m)
}

// Pause holds it.
type Pause struct{}

func (Pause) update(m Model) Model {
	m.Clock.Running = false
	return m
}

// Tick is time gone by while it runs.
type Tick struct{ By unit.Span }

func (e Tick) update(m Model) Model {
	t, err := m.Timeline()
	if err != nil || !m.Clock.Running {
		return m
	}
	if m.Clock.Slow {
		e.By *= slower
	}
	m.Clock.Time = t.Clamp(m.Clock.Time + e.By)
	m.Clock.Running = m.Clock.Time < t.To
	return m
}

// Seek shows the shot at a moment, held.
type Seek struct{ To unit.Span }

func (e Seek) update(m Model) Model {
	if t, err := m.Timeline(); err == nil {
		m.Clock = Clock{On: true, Slow: m.Clock.Slow, Time: t.Clamp(e.To)}
	}
	return m
}

// Step goes to the next event, or back to the one before: from the first one
// back to the shot at rest.
type Step struct{ Back bool }

func (e Step) update(m Model) Model {
	t, err := m.Timeline()
	if err != nil {
		return m
	}
	switch {
	case e.Back && !m.Clock.On:
		return m
	case e.Back:
		event, err := t.Last(m.Clock.Time)
		if err != nil {
			return Rest{}.update(m)
		}
		return Seek{event.When}.update(m)
	case !m.Clock.On:
		return Seek{t.From}.update(m)
	}
	event, err := t.Next(m.Clock.Time)
	if err != nil {
		return Pause{}.update(m)
	}
	return Seek{event.When}.update(m)
}

// Slow has it play at a quarter of its speed, or at its own.
type Slow struct{ On bool }

func (e Slow) update(m Model) Model {
	m.Clock.Slow = e.On
	return m
}

// Rest shows the shot at rest again.
type Rest struct{}

func (Rest) update(m Model) Model {
	m.Clock = Clock{Slow: m.Clock.Slow}
	return m
}
