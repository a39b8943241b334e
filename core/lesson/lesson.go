// Package lesson holds teaching material: scenarios in an order, a caption for each, and
// a question that the class answers by dragging. The answer is computed from the shot,
// never written down.
package lesson

import (
	"errors"
	"slices"
	"strconv"
	"unicode/utf8"

	"pivotbench/core/scenario"
	"pivotbench/core/typed"
)

// Limits of a lesson: what a class sits through, and what a wall can show.
const (
	MostSteps    = 50
	LongestTitle = 60  // characters
	LongestWords = 400 // characters of a caption or a question
)

// A Lesson needs at least one step to be useful. The zero Question means that there is
// none.
type Lesson struct {
	Title    string
	Steps    []Step
	Question Question
}

// A Step is a scenario and what is said about it. A caption may name readings and keys in
// braces, as in {squirt}, which are replaced by their values when it is shown.
type Step struct {
	Link    string // a scenario's text
	Caption string
}

// Scene returns the step's scenario in the reader's units, or in its own if units is
// empty.
func (s Step) Scene(units string) scenario.Scenario {
	scene, _ := scenario.Parse(s.Link)
	if units != "" {
		scene.Units = units
	}
	return scene
}

// Check returns an error for everything in a lesson that is not allowed, with its step.
func (l *Lesson) Check() []error {
	var faults []error
	add := func(where string, err error) {
		if err != nil {
			faults = append(faults, errors.New(where+": "+err.Error()))
		}
	}
	add("title", checkWords(l.Title, LongestTitle))
	if n := len(l.Steps); n == 0 || n > MostSteps {
		faults = append(faults, errors.New(strconv.Itoa(n)+" steps, but a lesson has 1 to "+strconv.Itoa(MostSteps)))
	}
	for i, s := range l.Steps {
		where := "step " + strconv.Itoa(i+1)
		add(where, checkWords(s.Caption, LongestWords))
		_, problems := scenario.Parse(s.Link)
		for _, p := range problems {
			add(where, p)
		}
	}
	if l.Question != (Question{}) {
		add("question", l.Question.check())
	}
	return faults
}

// checkWords returns an error if a text has several lines, cannot be shown or is too
// long.
func checkWords(text string, longest int) error {
	if n := utf8.RuneCountInString(text); n > longest {
		return errors.New(strconv.Itoa(n) + " characters, allowed: up to " + strconv.Itoa(longest))
	}
	if line, _ := typed.Line(text, longest); line != text {
		return errors.New("it has characters that can't be shown: " + strconv.QuoteToASCII(text))
	}
	return nil
}

// Clean returns the lesson with its texts in the form in which they are kept.
func (l Lesson) Clean() Lesson {
	l.Title, _ = typed.Line(l.Title, LongestTitle)
	l.Question.Text, _ = typed.Line(l.Question.Text, LongestWords)
	l.Steps = slices.Clone(l.Steps)
	for i := range l.Steps {
		l.Steps[i].Caption, _ = typed.Line(l.Steps[i].Caption, LongestWords)
	}
	return l
}

// Equal reports whether two lessons are the same.
func (l *Lesson) Equal(other *Lesson) bool {
	return l.Title == other.Title && l.Question == other.Question && slices.Equal(l.Steps, other.Steps)
}
