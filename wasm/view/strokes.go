package view

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// seenWords are what a stroke did at the gate, as the buttons have it.
var seenWords = map[string]string{"left": "hit left", "clean": "clean", "right": "hit right"}

// SeenWords are what a stroke did at the gate, by its name in records.
func SeenWords(see string) string { return seenWords[see] }

// A StrokeRow is a stroke as the Measure section lists it.
type StrokeRow struct {
	Index                       int // among all strokes
	Number, Cue, Hands, English string
	See                         string // at a gate, by its name in records; empty: it was marked
	Mark                        string // in words; empty: it was seen at a gate
}

// StrokeRows returns the strokes of a model, the newest first.
func StrokeRows(m *app.Model) []StrokeRow {
	strokes := m.Kept.Strokes
	rows := make([]StrokeRow, 0, len(strokes))
	for i := len(strokes) - 1; i >= 0; i-- {
		k := &strokes[i]
		s, _ := scenario.Parse(k.Link)
		s.Units = m.Scene.Units
		row := StrokeRow{Index: i, Number: strconv.Itoa(i + 1), Cue: phrase.CueName(k.Cue, 0), Hands: handsOf(&s), English: scenario.Find("side").Shown(&s), See: k.See}
		if k.Cue == "" {
			row.Cue = "unnamed"
		}
		if k.Mark != "" {
			row.Mark = markShown(&s, k)
		}
		rows = append(rows, row)
	}
	return rows
}

// handsOf says how english was put on: parallel, or off which bridge.
func handsOf(s *scenario.Scenario) string {
	if s.Back == 0 {
		return "parallel"
	}
	return scenario.Find("bridge").Shown(s)
}

// markShown is a mark in words.
func markShown(s *scenario.Scenario, k *store.Stroke) string {
	return phrase.Sideways(s, length(k.Mark)) + " at " + phrase.Brief(phrase.Length(s, length(k.At)))
}

// CorrectionWords say which stroke is being corrected; empty: none is.
func CorrectionWords(m *app.Model) string {
	if !m.Correction.On {
		return ""
	}
	n := strconv.Itoa(slices.Index(m.Kept.Strokes, m.Correction.Stroke) + 1)
	if m.Correction.Stroke.Mark != "" {
		return "Correcting stroke " + n + ": set it below as it was played, then add its mark again."
	}
	return "Correcting stroke " + n + ": set it below as it was played, then tap its result."
}

// NotedWords say what became of an event that noted a stroke, from the models
// before and after it; empty: nothing was noted, and why is among the notices.
func NotedWords(before, after *app.Model) string {
	switch {
	case after.Changes == before.Changes:
		return ""
	case before.Correction.On:
		return "corrected"
	}
	last := len(after.Kept.Strokes) - 1
	k := after.Kept.Strokes[last]
	s, _ := scenario.Parse(k.Link)
	s.Units = after.Scene.Units
	said := "stroke " + strconv.Itoa(last+1) + " noted: "
	if k.Mark != "" {
		said += markShown(&s, &k)
	} else {
		said += seenWords[k.See]
	}
	hands := "parallel"
	if s.Back != 0 {
		hands = "bridge " + scenario.Find("bridge").Shown(&s)
	}
	english := "no english"
	if s.Side != 0 {
		hand := "right"
		if s.Side < 0 {
			hand = "left"
		}
		english = hand + " english " + unit.Round(math.Abs(s.Side), unit.Ratio, "", 2) + " R"
	}
	pace := "speed"
	if s.ByStroke {
		pace = "stroke"
	}
	return said + ", " + hands + ", " + english + ", " + scenario.Find(pace).Shown(&s)
}

// NotedMarks says that several marks were noted at once.
func NotedMarks(n int) string { return strconv.Itoa(n) + " marks noted" }

// ReadMarks reads marks that were typed, and the line they are on, as a stroke has
// them. An empty line is MarkLine's.
func ReadMarks(m *app.Model, text, line string) (marks []string, at string, err error) {
	lengths, err := store.ReadLengths(text, m.Scene.Units)
	if err != nil {
		return nil, "", errors.New("the mark: " + err.Error())
	}
	dist := float64(MarkLine(m))
	if strings.TrimSpace(line) != "" {
		if dist, err = unit.Parse(line, unit.LengthKind, m.Scene.Units); err != nil {
			return nil, "", errors.New("the line: " + err.Error())
		}
	}
	for _, v := range lengths {
		marks = append(marks, store.Length(float64(v)))
	}
	return marks, store.Length(dist), nil
}

// MarkLine is the line that marks are on unless another is typed: the gate's, or
// without a gate the target's.
func MarkLine(m *app.Model) unit.Length {
	if m.Scene.Gate > 0 {
		return m.Scene.Gate
	}
	return m.Scene.Dist
}

// LineText is a length as a field has it, in the reader's units.
func LineText(m *app.Model, l unit.Length) string {
	return phrase.Brief(scenario.DisplayOf(unit.LengthKind, m.Scene.Units).Number(float64(l)))
}

// LengthText is a record's length as a field has it, as exact as it is.
func LengthText(m *app.Model, text string) string {
	u, _ := unit.LengthKind.Find(m.Scene.Units)
	return strconv.FormatFloat(math.Round(float64(length(text))/u.SI*1e4)/1e4, 'f', -1, 64)
}

// OtherSideWords ask whether the last mark lies on the other side.
func OtherSideWords(m *app.Model, t *Sitting) string {
	last := len(t.Noted) - 1
	return "Stroke " + strconv.Itoa(last+1) + ", " + phrase.Sideways(&m.Scene, length(t.Noted[last].Mark)) +
		", fits far better on the other side of the aim line. Right is positive, left is negative."
}

// OldMarks say that there are marks from an older version of the bench, which did
// not keep the shot they were made with; empty: there are none.
func OldMarks(m *app.Model) string {
	if m.Kept.Marks == (store.Marks{}) {
		return ""
	}
	return "There are marks on a rail from an older version, " + m.Kept.Marks.Rail + " away: right english “" + m.Kept.Marks.Right + "”, left english “" + m.Kept.Marks.Left +
		"”. The shot was not kept with them. Set speed, elevation, english and cue as they were, then add them."
}

// CueNames are the names that the cue being measured may have: of the strokes, then
// of the cues that are kept.
func CueNames(m *app.Model) []string {
	var names []string
	add := func(name string) {
		if name != "" && !slices.ContainsFunc(names, func(n string) bool { return store.CueKey(n) == store.CueKey(name) }) {
			names = append(names, name)
		}
	}
	for i := len(m.Kept.Strokes) - 1; i >= 0; i-- {
		add(m.Kept.Strokes[i].Cue)
	}
	for i := range m.Kept.Cues {
		add(m.Kept.Cues[i].Name)
	}
	return names
}

// MeasuredCue is the record of what a sitting says of the cue being measured.
func MeasuredCue(m *app.Model, t *Sitting, when string) store.CueRecord {
	cue := t.Cue(m.Measuring)
	how := "marks"
	for _, k := range m.Kept.Strokes {
		if store.CueKey(k.Cue) == store.CueKey(m.Measuring) && k.See != "" {
			how = "gate"
		}
	}
	s := m.Scene
	s.Name = m.Measuring
	return store.Measured(&s, t.Post.Pivot(cue), how, when)
}
