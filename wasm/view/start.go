package view

import (
	"strings"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// A Door is one of the choices of the start.
type Door struct {
	Name        string // as in app.Doors
	Label, Note string
}

// Doors lists the choices of the start.
var Doors = []Door{
	{"measure", "Measure a cue", "Find its pivot length from a few strokes"},
	{"aim", "Aim with english", "See where the ball goes and correct the aim"},
	{"compare", "Compare cues", "Put up to six cues on the same shot"},
	{"teach", "Teach a class", "Show a lesson on the wall, hand out a card"},
}

// GearKeys lists the keys that the start asks for.
var GearKeys = []string{"units", "table", "ball"}

// NextStep says what to do next in the section that a door opened. It is empty without a
// door, and once that step is done.
func NextStep(m *app.Model) string {
	switch m.Door {
	case "measure":
		if hasStrokes(m, m.Measuring) {
			return ""
		}
		if m.Measuring == "" {
			return "Type the cue's name. Then play the stroke as it is set below, and tap what the ball hit first."
		}
		return "Play the stroke as it is set below, and tap what the ball hit first."
	case "aim":
		if m.CanUndo() {
			return ""
		}
		return "Set your bridge, english and speed to match your shot. Then tap “Correct the aim”."
	case "compare":
		if m.Scene.More[0].Pivot != 0 {
			return ""
		}
		if len(m.Kept.Cues) == 0 {
			return "Save two cues first: measure them, or add them by hand."
		}
		return "Tick the cues you want to see on this shot."
	case "teach":
		if m.Lesson.Lesson.Stops() > 0 {
			return ""
		}
		return "Open a lesson below. It can go on the wall, and students can open it from a QR code."
	}
	return ""
}

// hasStrokes reports whether a cue has strokes on the list.
func hasStrokes(m *app.Model, cue string) bool {
	for _, k := range m.Kept.Strokes {
		if store.CueKey(k.Cue) == store.CueKey(cue) {
			return true
		}
	}
	return false
}

// OtherGear says which of the user's own gear the current shot does not have. It is empty
// when there is none.
func OtherGear(m *app.Model) string {
	var here, mine []string
	for _, part := range m.Other() {
		here = append(here, partWords(part, &m.Scene, &m.Gear.Scene, m.Scene.Units))
		mine = append(mine, partWords(part, &m.Gear.Scene, &m.Scene, m.Scene.Units))
	}
	if here == nil {
		return ""
	}
	return "This shot has its own gear: " + strings.Join(here, ", ") + ". Yours: " + strings.Join(mine, ", ") + "."
}

// partWords describes a part of a user's gear by what differs from another's.
func partWords(part scenario.Part, s, other *scenario.Scenario, units string) string {
	if part == scenario.CuePart {
		return CueWords(s, units)
	}
	var out []string
	for _, k := range []struct{ key, noun string }{{"units", ""}, {"table", " table"}, {"ball", " balls"}, {"cloth", " cloth"}} {
		key := scenario.Find(k.key)
		if of, _ := scenario.PartOf(k.key); of != part || key.Text(s) == key.Text(other) {
			continue
		}
		for _, c := range key.Choices {
			if c.Name == key.Text(s) {
				label, _, _ := strings.Cut(c.Label, ",") // without the diameter of a ball
				out = append(out, strings.ToLower(label)+k.noun)
			}
		}
	}
	switch {
	case out != nil:
		return strings.Join(out, ", ")
	case s.Own == scenario.Overrides{}:
		return "standard values for ball and cloth"
	}
	return "measured values for ball or cloth"
}

// CueWords describes the current cue of a shot by its name and its pivot length.
func CueWords(s *scenario.Scenario, units string) string {
	pivot := scenario.DisplayOf(unit.LengthKind, units).Format(float64(s.Pivot))
	if s.Name == "" {
		return "a cue with a pivot length of " + pivot
	}
	return s.Name + " (pivot length " + pivot + ")"
}

// A GearCue is a cue that the user can choose as his own.
type GearCue struct{ Value, Label string }

// The values of a GearCue that are not the ID of a saved cue.
const (
	NoCue    = "none"    // no cue is the user's own
	OwnCue   = "own"     // the one that is
	BenchCue = "current" // the current cue
)

// GearCues lists the cues that the user can choose as his own, the chosen one first.
func GearCues(m *app.Model, listed []ListedCue) (out []GearCue) {
	if m.Gear.Has[scenario.CuePart] {
		mine := m.MyGear()
		out = append(out, GearCue{OwnCue, CueWords(&mine, m.Scene.Units)})
	} else {
		out = append(out, GearCue{NoCue, "Not chosen yet"})
	}
	if !m.Gear.Has[scenario.CuePart] || !m.Scene.Shares(scenario.CuePart, &m.Gear.Scene) {
		out = append(out, GearCue{BenchCue, "Current cue: " + CueWords(&m.Scene, m.Scene.Units)})
	}
	for i := range listed {
		if listed[i].Err == nil && len(out) < MostListed {
			out = append(out, GearCue{listed[i].ID(), listed[i].Title()})
		}
	}
	return out
}
