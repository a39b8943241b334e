package lesson

import "pivotbench/core/scenario"

// Stops returns the number of places at which a lesson stops: its steps, then its
// question, then the answer.
func (l *Lesson) Stops() int {
	n := len(l.Steps)
	if n > 0 && l.Question != (Question{}) {
		n += 2
	}
	return n
}

// Asks reports whether a stop is the question.
func (l *Lesson) Asks(at int) bool { return at == len(l.Steps) && at < l.Stops() }

// Answers reports whether a stop is the answer.
func (l *Lesson) Answers(at int) bool { return at == len(l.Steps)+1 && at < l.Stops() }

// Scene returns the scenario of a stop in the reader's units, or in its own if units is
// empty. The question is about the last step. The answer is computed, and changes nothing
// if there is none. at must be less than Stops.
func (l *Lesson) Scene(at int, units string) scenario.Scenario {
	scene := l.Steps[min(at, len(l.Steps)-1)].Scene(units)
	if l.Answers(at) {
		if a, err := l.Question.Answer(&scene); err == nil {
			l.Question.Put(&scene, a.Best)
		}
	}
	return scene
}
