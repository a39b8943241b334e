package app

import (
	"slices"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/kept"
)

// SaveCue puts a record on the list.
type SaveCue struct{ Cue kept.Cue }

func (e SaveCue) update(m Model) Model {
	k := m.Kept
	k.Cues = append(slices.Clip(k.Cues), e.Cue)
	return Settle{}.update(m).keep(k)
}

// ChangeCue replaces a record.
type ChangeCue struct {
	Index int
	Cue   kept.Cue
}

func (e ChangeCue) update(m Model) Model {
	k := m.Kept
	if e.Index < 0 || e.Index >= len(k.Cues) {
		return m
	}
	k.Cues = slices.Clone(k.Cues)
	k.Cues[e.Index] = e.Cue
	return Settle{}.update(m).keep(k)
}

// DropCue takes a record off the list.
type DropCue struct{ Index int }

func (e DropCue) update(m Model) Model {
	k := m.Kept
	if e.Index < 0 || e.Index >= len(k.Cues) {
		return m
	}
	k.Cues = slices.Delete(slices.Clone(k.Cues), e.Index, e.Index+1)
	return Settle{}.update(m).keep(k)
}

// UseCue puts a cue on the bench, with its tip's width and friction, and
// others beside it.
type UseCue struct {
	Cue      scenario.Cue
	TipWidth unit.Length
	Chalk    float64
	Beside   []scenario.Cue
}

func (e UseCue) update(m Model) Model {
	m = Settle{}.update(m)
	m.Scene = m.Scene.With(e.Cue)
	m.Scene.TipWidth, m.Scene.Chalk = e.TipWidth, e.Chalk
	return Compare{e.Beside}.update(m)
}

// Compare puts further cues beside the one on the bench, as many as there is
// room for, in place of those that were there.
type Compare struct{ Cues []scenario.Cue }

func (e Compare) update(m Model) Model {
	m.Scene.More = [len(m.Scene.More)]scenario.Cue{}
	copy(m.Scene.More[:], e.Cues)
	return Settle{}.update(m)
}
