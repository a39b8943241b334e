// Package store is what stays on the device and travels in a file: tries, marks,
// cues, timings, tables and hops. Plain Go, no browser.
package store

import (
	"slices"
	"strings"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/core/trial"
	"pivotbench/core/typed"
	"pivotbench/wasm/codec"
)

// A Try is a try as it was noted down: the whole shot as a link, so that
// set-ups may differ from try to try, and what it came to.
type Try struct {
	Link    string
	Outcome string // left, clean or right
	When    string // the device's date and time, for people
}

func (t *Try) fields(f codec.Fields) {
	f.Text("link", &t.Link)
	f.Text("outcome", &t.Outcome)
	f.Text("when", &t.When)
}

// Records are what stays on the device and travels in a file. They are never
// changed in place.
type Records struct {
	V        int
	Tries    []Try
	Cues     []CueRecord
	Marks    Marks
	Readings []Reading
	Tables   []Table
	Hops     []Hop

	Lessons []lesson.Lesson // one's own
}

func (k *Records) fields(f codec.Fields) {
	f.Whole("v", &k.V)
	codec.List(f, "tries", mostRead, &k.Tries, (*Try).fields)
	codec.List(f, "cues", mostRead, &k.Cues, (*CueRecord).fields)
	codec.Record(f, "marks", true, &k.Marks, (*Marks).fields)
	codec.List(f, "readings", mostRead, &k.Readings, (*Reading).fields)
	codec.List(f, "tables", mostRead, &k.Tables, (*Table).fields)
	codec.ListIfAny(f, "hops", mostRead, &k.Hops, (*Hop).fields)
	codec.ListIfAny(f, "lessons", mostRead, &k.Lessons, lessonFields)
}

// Clean returns the try with its texts as they are kept and read.
func (t Try) Clean() Try {
	t.When, _ = typed.Lines(t.When, len(t.When))
	return t
}

// Faults returns what is wrong with a try, in words.
func (t *Try) Faults() []string {
	out := linkFaults(t.Link)
	if !slices.Contains(Outcomes, t.Outcome) {
		out = append(out, "outcome “"+clip(t.Outcome)+"”, allowed: "+strings.Join(Outcomes, ", "))
	}
	return out
}

// Outcomes are the words of a log, by trial.Outcome.
var Outcomes = []string{trial.Left: "left", trial.Clean: "clean", trial.Right: "right"}

// Trial is a try as the computation takes it, about the pivot length at one
// reference offset; ok is false for an outcome that is not one of the
// words.
func (l Try) Trial(reference float64) (t trial.Try, ok bool) {
	s, _ := scenario.Parse(l.Link)
	s.PivotSpin = reference
	o := slices.Index(Outcomes, l.Outcome)
	return trial.Try{Shot: s.Shot(), Outcome: trial.Outcome(o)}, o >= 0
}
