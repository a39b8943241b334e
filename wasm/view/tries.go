package view

import (
	"slices"
	"strconv"

	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// A TryRow is a try as the Measure section lists it.
type TryRow struct {
	Index                          int // among all tries
	Number, Bridge, English, Speed string
	Outcome                        string // by its name in records
}

// TryRows returns the tries of a model, the newest first.
func TryRows(m *app.Model) []TryRow {
	tries := m.Kept.Strokes
	rows := make([]TryRow, 0, len(tries))
	for i := len(tries) - 1; i >= 0; i-- {
		s, _ := scenario.Parse(tries[i].Link)
		s.Units = m.Scene.Units
		shown := func(key string) string { return scenario.Find(key).Shown(&s) }
		rows = append(rows, TryRow{i, strconv.Itoa(i + 1), shown("bridge"), shown("side"), shown("speed"), tries[i].See})
	}
	return rows
}

// CorrectionWords say which try is being corrected; empty: none is.
func CorrectionWords(m *app.Model) string {
	if !m.Correction.On {
		return ""
	}
	return "Correcting try " + strconv.Itoa(slices.Index(m.Kept.Strokes, m.Correction.Stroke)+1) +
		": set it below as it was played, then tap its result."
}

// NotedWords say what became of an event that noted a try, from the models before
// and after it; empty: nothing was noted, and why is among the notices.
func NotedWords(before, after *app.Model) string {
	switch {
	case after.Changes == before.Changes:
		return ""
	case before.Correction.On:
		return "corrected"
	}
	last := len(after.Kept.Strokes) - 1
	return Noted(last, after.Kept.Strokes[last], after.Scene.Units)
}

// RailOf returns what the marks on a rail say.
func RailOf(m *app.Model, when string) RailFinding {
	if m.Kept.Marks == (store.Marks{}) {
		return RailFinding{Note: "Enter the distance and the marks."}
	}
	return WeighMarks(&m.Scene, m.Kept.Marks, when)
}
