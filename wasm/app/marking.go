package app

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"pivotbench/core/sitting"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

// A Marking is the mark of the next stroke, as the user has entered it so far.
type Marking struct {
	Text string // where the ball's centre crossed the line; several lengths are several strokes
	Line string // distance of the line; empty means that of the gate, or of the target without a gate
	Read string // standard deviation of the reading: one of Reads; empty means the first
}

// Reads lists the reading errors that the user can choose: by eye and with a ruler.
var Reads = []string{store.Length(float64(sitting.ByEye)), store.Length(float64(sitting.ByRuler))}

// SetMarking takes over what the user has entered as a mark.
type SetMarking struct{ Marking Marking }

// mostTyped is the maximum length of what is typed as marks, in bytes: far more than
// anyone notes at once.
const mostTyped = 1000

func (e SetMarking) update(m Model) Model {
	m.Marking = e.Marking
	for _, part := range markingParts(&m.Marking) {
		*part = strings.ToValidUTF8((*part)[:min(len(*part), mostTyped)], "")
	}
	return m
}

// Marks returns the lengths that the user has entered as marks, and the distance of
// their line.
func (m *Model) Marks() (at []unit.Length, line unit.Length, err error) {
	if at, err = store.ReadLengths(m.Marking.Text, m.Scene.Units); err != nil {
		return nil, 0, errors.New("the mark: " + err.Error())
	}
	if line, err = m.markLine(); err != nil {
		return nil, 0, errors.New("the line: " + err.Error())
	}
	return at, line, nil
}

// MarkLine returns the distance of the line for marks. If the user's text cannot be read
// it is the default: that of the gate, or of the target when there is no gate. So it is
// while a player is filmed, since the text was typed for another shot.
func (m *Model) MarkLine() unit.Length {
	line, _ := m.markLine()
	return line
}

func (m *Model) markLine() (line unit.Length, err error) {
	line = m.Scene.Dist
	if m.Scene.Gate > 0 {
		line = m.Scene.Gate
	}
	if strings.TrimSpace(m.Marking.Line) == "" || m.FilmTurn.Player != "" {
		return line, nil
	}
	v, err := unit.Parse(m.Marking.Line, unit.LengthKind, m.Scene.Units)
	if err != nil {
		return line, err
	}
	return unit.Length(v), nil
}

// NoteMarks records a stroke of the measured cue for each mark that the user has
// entered, as one step for undo. A mark that cannot be read, or is impossible, changes
// only the notices.
type NoteMarks struct{ When string }

func (e NoteMarks) update(m Model) Model {
	at, line, err := m.Marks()
	switch {
	case err != nil:
		return Tell{[]string{"Not noted: " + err.Error() + "."}}.update(m)
	case m.Correction.On && len(at) > 1:
		return Tell{[]string{"Not noted: " + strconv.Itoa(len(at)) + " marks, but one stroke is being corrected: type one mark."}}.update(m)
	}
	read := m.Marking.Read
	if read == "" {
		read = Reads[0]
	}
	next := m.settled()
	for i, v := range at {
		before := next.Past
		next = NoteStroke{Cue: m.Measuring, Mark: store.Length(float64(v)), At: store.Length(float64(line)), Read: read, When: e.When}.update(next)
		if next.Notices != nil {
			return Tell{next.Notices}.update(m)
		}
		if i > 0 {
			next.Past = before // one step for all of them
		}
	}
	if !m.Correction.On {
		next.Marking.Text = ""
	}
	return next
}

// MarkKey is the key of a Setting of a drag that places the mark.
const MarkKey = "mark"

// inNewUnits returns the model with the mark and its line in the present units, if
// these were others before: a bare number must not change its meaning.
func (m Model) inNewUnits(before *Model) Model {
	old, now := before.Scene.Units, m.Scene.Units
	if old == now || m.Marking != before.Marking { // or it came with the new units
		return m
	}
	var texts []string
	if at, err := store.ReadLengths(m.Marking.Text, old); err == nil {
		for _, v := range at {
			texts = append(texts, FieldLength(v, now))
		}
		m.Marking.Text = strings.Join(texts, ", ")
	}
	if v, err := unit.Parse(m.Marking.Line, unit.LengthKind, old); err == nil {
		m.Marking.Line = FieldLength(unit.Length(v), now)
	}
	return m
}

// FieldLength returns a length as a field with the unit beside it shows it, with up to
// four decimals.
func FieldLength(v unit.Length, units string) string {
	u, _ := unit.LengthKind.Find(units)
	return strconv.FormatFloat(math.Round(float64(v)/u.SI*1e4)/1e4, 'f', -1, 64)
}
