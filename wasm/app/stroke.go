package app

import (
	"slices"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

// A Correction is a recorded stroke that the user is correcting. Meanwhile its shot is
// the current shot, and its cue is the measured cue.
type Correction struct {
	On     bool              // whether there is one
	Stroke store.Stroke      // the stroke as recorded
	Back   scenario.Scenario // the shot from before the correction
	Cue    string            // name of the cue that was measured before it
	Mark   Marking           // the mark from before it
}

// EditStroke makes a stroke's shot the current shot, so that the user can correct it. If
// the stroke is no longer in the list, only the notices change.
type EditStroke struct{ Stroke store.Stroke }

func (e EditStroke) update(m Model) Model {
	if !slices.Contains(m.Kept.Strokes, e.Stroke) {
		return m.gone("stroke")
	}
	m = m.settled()
	if !m.Correction.On {
		m.Correction.Back, m.Correction.Cue, m.Correction.Mark = m.Scene, m.Measuring, m.Marking
	}
	m.Correction.On, m.Correction.Stroke = true, e.Stroke
	m = Open{e.Stroke.Link}.update(m)
	m.Measuring = e.Stroke.Cue
	m.Marking = Marking{}
	if e.Stroke.Mark != "" {
		field := func(text string) string {
			v, _ := unit.Parse(text, unit.LengthKind, "")
			return FieldLength(unit.Length(v), m.Scene.Units)
		}
		m.Marking = Marking{Text: field(e.Stroke.Mark), Line: field(e.Stroke.At), Read: e.Stroke.Read}
	}
	return m
}

// LeaveStroke ends the correction without changing the stroke, and brings back the shot
// and the measured cue from before. It changes nothing without a correction.
type LeaveStroke struct{}

func (LeaveStroke) update(m Model) Model {
	if !m.Correction.On {
		return m
	}
	was := m.Correction
	m.Correction = Correction{}
	m = m.place(was.Back)
	m.Measuring, m.Marking = was.Cue, was.Mark
	return m
}

// NoteStroke records the current shot and what was seen of it. The result is a new
// stroke or, during a correction, replaces the corrected stroke and ends the correction.
// Its fields are those of store.Stroke. An invalid or impossible stroke changes only the
// notices.
type NoteStroke struct {
	Cue, See, Mark, At, Read string
	Film                     store.Film
	When                     string
}

func (e NoteStroke) update(m Model) Model {
	m = m.settled().clocked(e.When)
	stroke := store.Stroke{Cue: e.Cue, Link: m.Scene.Format(), See: e.See, Mark: e.Mark, At: e.At, Read: e.Read, Film: e.Film, When: e.When}.Clean()
	if m.Correction.On {
		stroke.When = m.Correction.Stroke.When
		next := ChangeStroke{m.Correction.Stroke, stroke}.update(m)
		if next.Notices != nil {
			return next
		}
		return LeaveStroke{}.update(next)
	}
	if m.Notices = m.faults(stroke); m.Notices != nil {
		return m
	}
	k := m.Kept
	k.Strokes = append(slices.Clip(k.Strokes), stroke)
	return m.keep(k)
}

// NoteSeen records the current shot with the measured cue and what the ball hit first.
type NoteSeen struct{ See, When string }

func (e NoteSeen) update(m Model) Model {
	return NoteStroke{Cue: m.Measuring, See: e.See, When: e.When}.update(m)
}

// ChangeStroke replaces a recorded stroke with another. If the new one is invalid or
// impossible, or the old one is no longer in the list, only the notices change.
type ChangeStroke struct{ Was, Stroke store.Stroke }

func (e ChangeStroke) update(m Model) Model {
	m = m.settled()
	stroke := e.Stroke.Clean()
	if m.Notices = m.faults(stroke); m.Notices != nil {
		return m
	}
	strokes, ok := store.Swap(m.Kept.Strokes, e.Was, stroke)
	if !ok {
		return m.gone("stroke")
	}
	k := m.Kept
	k.Strokes = strokes
	return m.keep(k)
}

// MoveAcross exchanges left and right of some strokes, as one step for undo: a mark moves
// to the other side of the aim line. If one of them is no longer in the list, only the
// notices change.
type MoveAcross struct{ Strokes []store.Stroke }

func (e MoveAcross) update(m Model) Model {
	k := m.Kept
	for _, stroke := range e.Strokes {
		strokes, ok := store.Swap(k.Strokes, stroke, stroke.Across())
		if !ok {
			return m.gone("stroke")
		}
		k.Strokes = strokes
	}
	m.Notices = nil
	return m.keep(k)
}

// ClearStrokes deletes the strokes of a cue, or those of all cues. It changes nothing if
// there are none.
type ClearStrokes struct {
	Cue string
	All bool
}

func (e ClearStrokes) update(m Model) Model {
	k := m.Kept
	k.Strokes = slices.DeleteFunc(slices.Clone(k.Strokes), func(s store.Stroke) bool {
		return e.All || store.CueKey(s.Cue) == store.CueKey(e.Cue)
	})
	if len(k.Strokes) == len(m.Kept.Strokes) {
		return m
	}
	m.Notices = nil
	return m.keep(k)
}

// faults says why a stroke is invalid or impossible. It returns nil for a good stroke.
func (m Model) faults(stroke store.Stroke) []string {
	if faults := stroke.Faults(); faults != nil {
		for i := range faults {
			faults[i] = "Not noted: " + faults[i] + "."
		}
		return faults
	}
	k, err := stroke.Stroke(0, m.Scene.PivotSpin)
	if err == nil {
		err = k.Possible()
	}
	if err == nil {
		return nil
	}
	s, _ := scenario.Parse(stroke.Link)
	said := "Not noted: " + err.Error()
	for _, key := range []string{"bridge", "grip", "speed"} {
		said += "; " + key + " " + scenario.Find(key).Shown(&s)
	}
	if stroke.See == "" {
		return []string{said + "; line " + stroke.At + "."}
	}
	return []string{said + "; gate " + scenario.Find("gate").Shown(&s) + "."}
}
