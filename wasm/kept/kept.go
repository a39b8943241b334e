// Package kept is what stays on the device and travels in a file: tries, marks,
// cues, timings and tables. Plain Go, no browser.
package kept

import (
	"slices"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/core/trial"
)

// A Try is a try as it was noted down: the whole shot as a link, so that
// set-ups may differ from try to try, and what it came to.
type Try struct {
	Link    string `json:"link"`
	Outcome string `json:"outcome"` // left, clean or right
	When    string `json:"when"`    // the device's date and time, for people
}

// Records are what stays on the device and travels in a file. They are never
// changed in place.
type Records struct {
	V        int       `json:"v"`
	Tries    []Try     `json:"tries"`
	Cues     []Cue     `json:"cues"`
	Marks    Marks     `json:"marks"`
	Readings []Reading `json:"readings"`
	Tables   []Table   `json:"tables"`

	Lessons []lesson.Lesson `json:"lessons,omitempty"` // one's own
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
