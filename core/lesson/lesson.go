// Package lesson is something to teach with: scenarios in an order, a caption
// for each, and a question that the class answers by dragging. The answer is
// worked out from the shot, never written down.
package lesson

import (
	"errors"
	"slices"
	"strconv"
	"unicode/utf8"

	"pivotbench/core/scenario"
	"pivotbench/core/typed"
)

// Limits of a lesson: what a class sits through, and a wall can show.
const (
	MostSteps    = 50
	LongestTitle = 60  // characters
	LongestWords = 400 // characters of a caption or a question
)

// A Lesson has at least one step to be of use. The zero Question is none.
type Lesson struct {
	Title    string
	Steps    []Step
	Question Question
}

// A Step is a scenario and what is said about it. A caption may name readings
// and keys in braces, as in {squirt}: whoever shows it puts their values in.
type Step struct {
	Link    string // a scenario's text
	Caption string
}

// Scene is the step's scenario, in the reader's units; empty units leave it
// in its own.
func (s Step) Scene(units string) scenario.Scenario {
	scene, _ := scenario.Parse(s.Link)
	if units != "" {
		scene.Units = units
	}
	return scene
}

// Check names everything in a lesson that can't be taken, each with its step.
func (l *Lesson) Check() []error {
	var faults []error
	add := func(where string, err error) {
		if err != nil {
			faults = append(faults, errors.New(where+": "+err.Error()))
		}
	}
	add("title", checkWords(l.Title, LongestTitle))
	if n := len(l.Steps); n == 0 || n > MostSteps {
		faults = append(faults, errors.New(strconv.Itoa(n)+" steps; a lesson has 1 to "+strconv.Itoa(MostSteps)))
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

// checkWords allows what one line of a page can show.
func checkWords(text string, longest int) error {
	if n := utf8.RuneCountInString(text); n > longest {
		return errors.New(strconv.Itoa(n) + " characters, allowed: up to " + strconv.Itoa(longest))
	}
	if line, _ := typed.Line(text, longest); line != text {
		return errors.New("white space or characters that can't be shown: " + strconv.QuoteToASCII(text))
	}
	return nil
}

// Clean returns the lesson with its words as they can be kept.
func (l Lesson) Clean() Lesson {
	l.Title, _ = typed.Line(l.Title, LongestTitle)
	l.Question.Text, _ = typed.Line(l.Question.Text, LongestWords)
	l.Steps = slices.Clone(l.Steps)
	for i := range l.Steps {
		l.Steps[i].Caption, _ = typed.Line(l.Steps[i].Caption, LongestWords)
	}
	return l
}

// Equal reports whether two lessons say the same.
func (l *Lesson) Equal(other *Lesson) bool {
	return l.Title == other.Title && l.Question == other.Question && slices.Equal(l.Steps, other.Steps)
}
