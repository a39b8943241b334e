package app

import (
	"slices"

	"pivotbench/core/scenario"
	"pivotbench/core/typed"
	"pivotbench/wasm/store"
)

// MeasureCue picks the cue that is measured from here on, by its name; an empty
// one is that of a cue without a name.
type MeasureCue struct{ Name string }

func (e MeasureCue) update(m Model) Model {
	m = m.settled() // what was done before was done with the other cue
	name, faults := cueName(e.Name)
	if m.Notices = faults; faults == nil {
		m.Measuring = name
	}
	return m
}

// cueName returns a cue's name as it is kept, or why it can't be one.
func cueName(text string) (name string, faults []string) {
	name, _ = typed.Line(text, len(text))
	return name, store.NameFaults("cue", name)
}

// RenameCue gives a cue another name, in one step: in all its strokes and records,
// and where it is on the bench. Strokes of a cue without a name get one; records
// without a name stay, since each is of a cue of its own.
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
	case slices.Equal(k.Strokes, m.Kept.Strokes) && slices.Equal(k.Cues, m.Kept.Cues) && next.Scene == m.Scene:
		return next // a cue that has nothing yet, or had that name
	}
	put := m.put(k)
	next.Past, next.Future, next.Kept, next.Changes = put.Past, put.Future, put.Kept, put.Changes
	return next
}

// followRenamed has the cue that is being measured keep up with another tab, in
// which it may have been given another name.
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
