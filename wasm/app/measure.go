package app

import (
	"slices"

	"pivotbench/core/scenario"
	"pivotbench/core/typed"
	"pivotbench/wasm/store"
)

// MeasureCue chooses by name the cue whose strokes are recorded from now on. An empty
// name means a cue without a name. An invalid name changes only the notices.
type MeasureCue struct{ Name string }

func (e MeasureCue) update(m Model) Model {
	m = m.settled() // changes before this were made with the other cue
	name, faults := cueName(e.Name)
	if m.Notices = faults; faults == nil {
		m.Measuring, m.Table.Named = name, true
	}
	return m
}

// measuringNewest returns the model with the cue of the newest stroke as the one that is
// measured, if there are strokes.
func (m Model) measuringNewest() Model {
	if n := len(m.Kept.Strokes); n > 0 {
		m.Measuring = m.Kept.Strokes[n-1].Cue
	}
	return m
}

// cueName returns a cue's name normalized for storage, and what is wrong with it.
func cueName(text string) (name string, faults []string) {
	name, _ = typed.Line(text, len(text))
	return name, store.NameFaults("cue", name)
}

// RenameCue changes the name of a cue in its strokes, in its records and in the current
// and remembered shots, as one step for undo. If the old name is empty, it names the
// strokes but not the records: each record without a name is of a different cue. If no
// cue has the old name, or the new name is invalid, only the notices change.
type RenameCue struct{ Was, Name string }

func (e RenameCue) update(m Model) Model {
	name, faults := cueName(e.Name)
	if faults != nil {
		return m.refused(faults)
	}
	was := store.CueKey(e.Was)
	found := false
	rename := func(at *string) {
		if store.CueKey(*at) == was {
			*at, found = name, true
		}
	}
	m = m.settled()
	next, k := m, m.Kept
	rename(&next.Measuring)
	if next.Correction.On {
		rename(&next.Correction.Cue)
	}
	k.Strokes, k.Cues = slices.Clone(k.Strokes), slices.Clone(k.Cues)
	for i := range k.Strokes {
		rename(&k.Strokes[i].Cue)
	}
	if was != "" {
		for i := range k.Cues {
			rename(&k.Cues[i].Name)
		}
		k.Players, k.Turns = slices.Clone(k.Players), slices.Clone(k.Turns)
		for i := range k.Players {
			rename(&k.Players[i].Cue)
		}
		for i := range k.Turns {
			rename(&k.Turns[i].Cue)
		}
		rename(&next.CueForm.Cue.Name)
		for _, s := range []*scenario.Scenario{&next.Scene, &next.Settled, &next.Before, &next.Correction.Back, &next.Back.Scene} {
			rename(&s.Name)
			for i := range s.More {
				rename(&s.More[i].Name)
			}
		}
		if next.OpenedCue == was {
			next.OpenedCue = store.CueKey(name)
		}
	}
	m.Notices, next.Notices = nil, nil
	switch {
	case !found:
		return m.gone("cue")
	case slices.Equal(k.Strokes, m.Kept.Strokes) && slices.Equal(k.Cues, m.Kept.Cues) && slices.Equal(k.Players, m.Kept.Players) && slices.Equal(k.Turns, m.Kept.Turns) && next.Scene == m.Scene:
		return next // the cue has no records yet, or already has the name
	}
	put := m.put(k)
	next.Past, next.Future, next.Kept, next.Changes = put.Past, put.Future, put.Kept, put.Changes
	return next
}

// followRenamed returns the model with the name of the measured cue updated, if another
// tab has renamed that cue.
func (m Model) followRenamed(before []store.Stroke) Model {
	is := func(k store.Stroke) bool { return k.Cue == m.Measuring }
	i := slices.IndexFunc(before, is)
	if i < 0 || slices.ContainsFunc(m.Kept.Strokes, is) {
		return m
	}
	if now, ok := whereabouts(before, m.Kept.Strokes, before[i], func(a, b store.Stroke) bool { return a == b }); ok {
		m.Measuring = now.Cue
	}
	return m
}
