package app

import (
	"errors"
	"strconv"
	"strings"

	"pivotbench/core/scenario"
	"pivotbench/core/trial"
	"pivotbench/core/unit"
)

// MarksText is marks on a rail as they were typed: sideways places of the
// ball's centre, positive to the right, for either side of english.
type MarksText struct {
	Rail  string `json:"rail"` // from the ball's centre to where it is at the cushion
	Right string `json:"right"`
	Left  string `json:"left"`
}

// SetMarks is the marks' text changed.
type SetMarks struct{ Marks MarksText }

func (e SetMarks) update(m Model) Model {
	k := m.Kept
	k.Marks = e.Marks
	return Settle{}.update(m).keep(k)
}

// Read makes the text out. Bare numbers are in the reader's unit.
func (t MarksText) Read(s *scenario.Scenario) (rail unit.Length, marks []trial.Mark, err error) {
	d, err := unit.Parse(t.Rail, unit.LengthKind, s.Units)
	if err != nil {
		return 0, nil, errors.New("distance to the rail: " + err.Error())
	}
	for _, side := range []struct {
		right bool
		text  string
	}{{true, t.Right}, {false, t.Left}} {
		for i, word := range markWords(side.text) {
			at, err := unit.Parse(word, unit.LengthKind, s.Units)
			if err != nil {
				name := map[bool]string{true: "right", false: "left"}[side.right]
				return 0, nil, errors.New("mark " + strconv.Itoa(i+1) + " with " + name + " english: " + err.Error())
			}
			marks = append(marks, trial.Mark{Right: side.right, At: unit.Length(at)})
		}
	}
	return unit.Length(d), marks, nil
}

// markWords parts a list of lengths at spaces, commas before a space,
// semicolons and lines; a unit may stand apart from its number.
func markWords(text string) []string {
	var out []string
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == '\n' || r == ' ' || r == '\t' }) {
		word = strings.TrimSuffix(word, ",")
		if _, isUnit := unit.LengthKind.Find(word); isUnit && len(out) > 0 {
			out[len(out)-1] += word
		} else if word != "" {
			out = append(out, word)
		}
	}
	return out
}

// A RailFinding is what marks say, in words.
type RailFinding struct {
	Facts []Fact
	Note  string
	Cue   CueRecord // to be saved; Pivot empty: there is none
}

// WeighMarks works marks on a rail out, for parallel shots like the scene's.
func WeighMarks(s *scenario.Scenario, t MarksText, when string) RailFinding {
	rail, marks, err := t.Read(s)
	if err != nil {
		return RailFinding{Note: err.Error()}
	}
	sh := s.Shot()
	sh.Gate.Dist = rail
	r, err := trial.Marks(&sh, s.GearTable().Width, marks, 0.9)
	var f RailFinding
	if r.Right.Freedom > 0 {
		mean := func(name string, m trial.Mean) {
			f.Facts = append(f.Facts, Fact{name, small(s, m.Mean) + " (90 %: " + small(s, m.From) + " to " + small(s, m.To) + ")"})
		}
		mean("right english, "+strconv.Itoa(int(r.Right.Freedom)+1)+" marks", r.Right)
		mean("left english, "+strconv.Itoa(int(r.Left.Freedom)+1)+" marks", r.Left)
		mean("squirt less swerve, at the rail", r.Offset)
		mean("aim error, at the rail", r.Aim)
	}
	if len(r.Outliers) > 0 {
		names := make([]string, len(r.Outliers))
		for i, o := range r.Outliers {
			names[i] = small(s, float64(marks[o].At))
		}
		f.Note = "Apart from the others of their side, and counted all the same: " + strings.Join(names, ", ") + ". "
	}
	if err != nil {
		f.Note += upper(err.Error()) + "."
		return f
	}
	f.Facts = append(f.Facts, Fact{"natural pivot", length(s, r.Pivot) + " (90 %: " + railEnd(s, r.From) + " to " + railEnd(s, r.To) + ")"},
		Fact{"squirt at " + unit.Round(s.PivotSpin, unit.Ratio, "", 2) + " R", scenario.Display{Quantity: unit.AngleKind, Unit: "°", Decimals: 2}.Format(float64(r.Squirt))})
	f.Cue = Typed(s, when)
	f.Cue.How = "marks"
	f.Cue.Pivot = inches(float64(r.Pivot))
	if far := 1000 * unit.Inch; r.To < far {
		f.Cue.From, f.Cue.To = inches(float64(r.From)), inches(float64(r.To))
	}
	return f
}

// railEnd is an end of the pivot's interval, which may be without end.
func railEnd(s *scenario.Scenario, l unit.Length) string {
	if l > 1000*unit.Inch {
		return "no squirt at all"
	}
	return length(s, l)
}

func inches(v float64) string { return unit.Exact(v, unit.LengthKind, "in") }
