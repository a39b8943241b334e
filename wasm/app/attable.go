package app

import (
	"slices"

	"pivotbench/core/scenario"
)

// A Table is the state of measuring at the table: a view of the section for measuring
// with large type and few buttons, for a phone that lies on the rail.
type Table struct {
	On     bool // whether it is open
	Named  bool // whether the user has said which cue is measured
	ByMark bool // whether strokes are marked on a line, rather than observed at the gate
}

// AtTable opens or closes measuring at the table. It asks for the cue first, unless the
// measured cue has a name.
type AtTable struct{ On bool }

func (e AtTable) update(m Model) Model {
	if e.On {
		m = OpenSection{"measure"}.update(m)
		m.Table.Named = m.Measuring != ""
	}
	m.Table.On = e.On
	return m
}

// AskCue has the user say again which cue is measured, as when he picks up another.
type AskCue struct{}

func (AskCue) update(m Model) Model {
	m.Table.Named = false
	return m
}

// ReadBy chooses how strokes are observed at the table.
type ReadBy struct{ Mark bool }

func (e ReadBy) update(m Model) Model {
	m.Table.ByMark = e.Mark
	return m
}

// TakeNext sets the suggested stroke at the table. Right after a stroke was noted it is
// part of that step for undo, otherwise it is a step of its own.
type TakeNext struct{ Sets []Setting }

func (e TakeNext) update(m Model) Model {
	next := SetAll(e).update(m)
	if n := len(m.Past); n > 0 && m.Past[n-1].Scene == m.Scene && len(m.Past[n-1].Kept.Strokes)+1 == len(m.Kept.Strokes) {
		next.Past, next.Future = m.Past, nil
	}
	return next
}

// TakeBack deletes the newest stroke. Its shot is the current one again and its cue the
// measured one, so that it can be played or noted again. It changes nothing without
// strokes.
type TakeBack struct{}

func (TakeBack) update(m Model) Model {
	n := len(m.Kept.Strokes)
	if n == 0 {
		return m
	}
	last, k := m.Kept.Strokes[n-1], m.Kept
	k.Strokes = slices.Clip(k.Strokes[:n-1])
	next := m.keep(k)
	next.Correction, next.Notices = Correction{}, nil
	scene, _ := scenario.Parse(last.Link)
	scene.Units = m.Scene.Units
	next.Scene, next.Settled, next.Measuring = scene, scene, last.Cue
	return next
}
