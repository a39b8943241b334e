package phrase

import (
	"math"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// Stop returns the text of a stop of a lesson: the step's caption with its values, the
// question, or the answer.
func Stop(l *lesson.Lesson, at int, units string) string {
	if l.Asks(at) {
		return l.Question.Text
	}
	scene := l.Scene(min(at, len(l.Steps)-1), units)
	if l.Answers(at) {
		return Answer(&l.Question, &scene)
	}
	sh, res := scene.Shot(), new(shot.Result)
	shot.Play(&sh, res)
	return Caption(l.Steps[at].Caption, &scene, &res.Reading)
}

// Answer returns the answer to a question about a scenario.
func Answer(q *lesson.Question, s *scenario.Scenario) string {
	a, err := q.Answer(s)
	if err != nil {
		return "No answer: " + err.Error() + "."
	}
	// The answer consists of values that the control can be dragged to.
	k := scenario.Find(q.Key)
	from, to := k.Stepped(a.From, s.Units, math.Ceil), k.Stepped(a.To, s.Units, math.Floor)
	best := min(max(k.Stepped(a.Best, s.Units, math.Round), from), to)
	if from > to { // no step lies between
		best = a.Best
	}
	said := k.Label + " " + Value(q, s, best) + "."
	if from < to {
		said += " Anything from " + Value(q, s, from) + " to " + Value(q, s, to) + " works."
	}
	return said
}

// Flaw returns what is wrong with a lesson's question, for its author, or "" if nothing
// is. A class cannot answer a question without an answer, and has nothing to drag if the
// shot it starts from is already an answer.
func Flaw(l *lesson.Lesson, units string) string {
	if l.Question == (lesson.Question{}) || len(l.Steps) == 0 {
		return ""
	}
	scene := l.Scene(len(l.Steps)-1, units)
	if _, met := Attempt(&l.Question, &scene); met {
		return "The shot of the last step already answers this question. Change that shot or add a step."
	}
	if _, err := l.Question.Answer(&scene); err != nil {
		return "This question has no answer: " + err.Error() + ". Choose another control, or change the shot of the last step."
	}
	return ""
}

// Value returns a value of a question's control, in words.
func Value(q *lesson.Question, s *scenario.Scenario, v float64) string {
	at := *s
	q.Put(&at, v)
	text, _ := named(q.Key, &at, nil)
	return text
}

// Attempt returns how a scenario compares with the goal, in words, and whether it meets
// it.
func Attempt(q *lesson.Question, s *scenario.Scenario) (said string, met bool) {
	off, met, err := q.Try(s)
	if err != nil {
		return "Not yet: " + err.Error() + ".", false
	}
	at := Sideways(s, unit.Length(off))
	switch {
	case q.Goal == lesson.Launches:
		at = Turned(unit.Angle(off)) + " of the line"
	case at == Sideways(s, 0):
	case q.Goal == lesson.Arrives:
		at += " of the line"
	default:
		at += " of the middle"
	}
	if met {
		return "That works: " + at + ".", true
	}
	return "Not yet: " + at + ".", false
}
