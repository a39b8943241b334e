package app

import (
	"strconv"
	"strings"

	"pivotbench/core/unit"
)

// mostMarked is the maximum number of marks on a sheet. More would hide each other.
const mostMarked = 60

// A Marked is a mark on the sheet.
type Marked struct {
	Cue      int         // index of its cue among the cues that have strokes, in order of their first stroke
	At, Line unit.Length // position of the ball's centre sideways, and of the line down the table
}

// MarksShown returns the newest marks of the recorded strokes, as text for a Mirror,
// while the section for measuring is open. Otherwise it returns the text from the last
// Mirror.
func (m *Model) MarksShown() string {
	if m.Section != "measure" {
		return m.Marked
	}
	var out []string
	cues := map[string]int{}
	for i := range m.Kept.Strokes {
		k := &m.Kept.Strokes[i]
		name := strings.ToLower(k.Cue)
		if _, ok := cues[name]; !ok {
			cues[name] = len(cues)
		}
		at, err := unit.Parse(k.Mark, unit.LengthKind, "")
		line, errLine := unit.Parse(k.At, unit.LengthKind, "")
		if err == nil && errLine == nil {
			out = append(out, strconv.Itoa(cues[name])+" "+strconv.FormatFloat(at, 'f', 4, 64)+" "+strconv.FormatFloat(line, 'f', 4, 64))
		}
	}
	return strings.Join(out[max(0, len(out)-mostMarked):], ";")
}

// ParseMarks reads the marks in the text of a Mirror. It skips marks that cannot be
// read.
func ParseMarks(text string) (out []Marked) {
	for _, part := range strings.Split(text, ";") {
		words := strings.Fields(part)
		if len(words) != 3 || len(out) >= mostMarked {
			continue
		}
		cue, errCue := strconv.Atoi(words[0])
		at, errAt := strconv.ParseFloat(words[1], 64)
		line, errLine := strconv.ParseFloat(words[2], 64)
		if errCue == nil && errAt == nil && errLine == nil && cue >= 0 && line > 0 && line < 100 && at > -100 && at < 100 {
			out = append(out, Marked{cue, unit.Length(at), unit.Length(line)})
		}
	}
	return out
}
