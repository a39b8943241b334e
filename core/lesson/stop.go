package lesson

import "pivotbench/core/scenario"

// Stops are how many places a lesson halts at: its steps, then its question,
// then the answer to that.
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

// Scene is the scenario of a stop, in the reader's units; empty units leave it
// in its own. The question is about the last step; the answer is worked out,
// and changes nothing if there is none. at is within the stops.
func (l *Lesson) Scene(at int, units string) scenario.Scenario {
	scene := l.Steps[min(at, len(l.Steps)-1)].Scene(units)
	if l.Answers(at) {
		if a, err := l.Question.Answer(&scene); err == nil {
			l.Question.Put(&scene, a.Best)
		}
	}
	return scene
}
