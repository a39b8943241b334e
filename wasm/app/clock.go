package app

import (
	"pivotbench/core/replay"
	"pivotbench/core/unit"
)

// A Clock is the state of the shot's playback. It is never part of a link.
type Clock struct {
	On      bool      // whether the sheet shows the shot at Time
	Running bool      // whether Time advances
	Slow    bool      // whether playback is slow
	Time    unit.Span // since the tip touched the ball
}

// slower is the ratio of the slow playback speed to the normal speed.
const slower = 0.25

// Timeline returns the shot as a function of time. The error says why there is nothing
// to play.
func (m *Model) Timeline() (*replay.Timeline, error) {
	s := m.Scene.Shot()
	return replay.Of(&s, m.Play(), m.Scene.GearTable(), m.Look.Object)
}

// Frame returns the moment that the sheet shows, or nil if it shows the shot at rest.
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

// Run starts or continues the playback. It starts again from the beginning if the
// playback is at its end. It changes nothing if there is nothing to play.
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

// PlayOrHold starts the playback, or pauses it if it is running. For a user who prefers
// reduced motion, it steps to the next event instead of starting.
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

// Pause pauses the playback at the current time.
type Pause struct{}

func (Pause) update(m Model) Model {
	m.Clock.Running = false
	return m
}

// Tick advances the playback by an interval of real time, and stops it at the end. It
// changes nothing unless the playback is running.
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

// Seek shows the shot at a moment and pauses. It changes nothing if there is nothing to
// play.
type Seek struct{ To unit.Span }

func (e Seek) update(m Model) Model {
	if t, err := m.Timeline(); err == nil {
		m.Clock = Clock{On: true, Slow: m.Clock.Slow, Time: t.Clamp(e.To)}
	}
	return m
}

// Step moves the playback to the next event, or back to the previous one, and pauses. A
// step back from the first event shows the shot at rest, and a step forward from there
// shows its beginning. A step forward from the last event only pauses.
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

// Slow switches slow playback on or off.
type Slow struct{ On bool }

func (e Slow) update(m Model) Model {
	m.Clock.Slow = e.On
	return m
}

// Rest ends the playback and shows the shot at rest. It keeps the playback speed.
type Rest struct{}

func (Rest) update(m Model) Model {
	m.Clock = Clock{Slow: m.Clock.Slow}
	return m
}
