package view

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"pivotbench/core/scenario"
	"pivotbench/core/trial"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// ReadMarks makes the text of marks out. Bare numbers are in the reader's unit.
func ReadMarks(s *scenario.Scenario, t store.Marks) (rail unit.Length, marks []trial.Mark, err error) {
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
	Cue   store.CueRecord // to be saved; Pivot empty: there is none
}

// confidence is that of the intervals of marks.
const confidence = 0.9

// WeighMarks works marks on a rail out, for parallel shots like the scene's.
func WeighMarks(s *scenario.Scenario, t store.Marks, when string) RailFinding {
	rail, marks, err := ReadMarks(s, t)
	if err != nil {
		return RailFinding{Note: err.Error()}
	}
	sh := s.Shot()
	sh.Gate.Dist = rail
	r, err := trial.Marks(&sh, s.GearTable().Width, marks, confidence)
	var f RailFinding
	if r.Right.Freedom > 0 {
		mean := func(name string, m trial.Mean) {
			f.Facts = append(f.Facts, Fact{name, phrase.Small(s, m.Mean) + " (90 %: " + phrase.Small(s, m.From) + " to " + phrase.Small(s, m.To) + ")"})
		}
		mean("right english, "+strconv.Itoa(int(r.Right.Freedom)+1)+" marks", r.Right)
		mean("left english, "+strconv.Itoa(int(r.Left.Freedom)+1)+" marks", r.Left)
		mean("squirt less swerve, at the rail", r.Offset)
		mean("aim error, at the rail", r.Aim)
	}
	if len(r.Outliers) > 0 {
		names := make([]string, len(r.Outliers))
		for i, o := range r.Outliers {
			names[i] = phrase.Small(s, float64(marks[o].At))
		}
		f.Note = "Apart from the others of their side, and counted all the same: " + strings.Join(names, ", ") + ". "
	}
	if err != nil {
		f.Note += phrase.Upper(err.Error()) + "."
		return f
	}
	f.Facts = append(f.Facts, Fact{"natural pivot", phrase.Length(s, r.Pivot) + " (90 %: " + railEnd(s, r.From) + " to " + railEnd(s, r.To) + ")"},
		Fact{"squirt at " + unit.Round(s.PivotSpin, unit.Ratio, "", 2) + " R", scenario.Display{Quantity: unit.AngleKind, Unit: "°", Decimals: 2}.Format(float64(r.Squirt))})
	if against, ok := against(s, r, t.Other()); ok {
		f.Facts = append(f.Facts, against)
	}
	if r.Pivot > trial.PivotMost {
		f.Note += "No cue is saved with a pivot length over " + phrase.Length(s, trial.PivotMost) + ": it squirts so little that marks hardly tell."
		return f
	}
	f.Cue = store.Typed(s, when)
	f.Cue.How = "marks"
	f.Cue.Pivot = store.Length(float64(r.Pivot))
	if r.To < phrase.Endless {
		f.Cue.From, f.Cue.To = store.Length(float64(r.From)), store.Length(float64(r.To))
	}
	return f
}

// against holds the marks of this cue against those of another off the same
// shot; ok is false when there are none to go by.
func against(s *scenario.Scenario, this trial.Rail, t store.Marks) (f Fact, ok bool) {
	rail, marks, err := ReadMarks(s, t)
	if err != nil {
		return f, false
	}
	sh := s.Shot()
	sh.Gate.Dist = rail
	other, err := trial.Marks(&sh, s.GearTable().Width, marks, confidence)
	if err != nil && !errors.Is(err, trial.ErrNoPivot) {
		return f, false
	}
	c := trial.Compare(this.Offset, other.Offset, confidence)
	more := "more"
	if c.Mean.Mean < 0 {
		more = "less"
	}
	return Fact{"against the other cue", phrase.Small(s, math.Abs(c.Mean.Mean)) + " " + more + " at the rail (90 %: " +
		phrase.Small(s, c.From) + " to " + phrase.Small(s, c.To) + "; by chance alone in " + phrase.Percent(c.P) + " of cases)"}, true
}

// railEnd is an end of the pivot's interval, which may be without end.
func railEnd(s *scenario.Scenario, l unit.Length) string {
	if l > phrase.Endless {
		return "no squirt at all"
	}
	return phrase.Length(s, l)
}
