package view

import (
	"strconv"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// A Stop is what the Lessons section shows of the open lesson at its current stop.
type Stop struct {
	Open         bool // a lesson is open
	Own          bool // the lesson is one of the user's own
	Title, Place string
	Words        string
	First, Last  bool
	OnLabel      string // label of the button to the next stop
	Wall         string // link that shows the lesson full-screen from this stop
	Asks         bool   // the question is asked at this stop
	Answer       Reply
}

// A Reply is the current state of the control that a question is about.
type Reply struct {
	Label          string
	Min, Max, Step float64 // in SI
	Value          float64
	Shown          string // the value in the reader's units
	Attempt        string // the result of the shot with the value
}

// StopOf returns the current stop of a model's lesson.
func StopOf(m *app.Model) Stop {
	l := &m.Lesson
	stops := l.Lesson.Stops()
	if stops == 0 {
		return Stop{}
	}
	wall := *l
	wall.Units = m.LessonUnits()
	stop := Stop{
		Open: true, Own: m.Own, Title: l.Lesson.Title, Place: strconv.Itoa(l.At+1) + " of " + strconv.Itoa(stops),
		Words: phrase.Stop(&l.Lesson, l.At, wall.Units), First: l.At == 0, Last: l.At == stops-1,
		OnLabel: "Next ›", Wall: wall.Format(), Asks: l.Lesson.Asks(l.At),
	}
	if stop.Asks {
		stop.OnLabel = "Show answer"
		stop.Answer = replyOf(&l.Lesson.Question, &m.Scene)
	}
	return stop
}

func replyOf(q *lesson.Question, s *scenario.Scenario) Reply {
	k := scenario.Find(q.Key)
	v, _ := k.Number(s)
	said, _ := phrase.Attempt(q, s)
	return Reply{Label: k.Label, Min: k.Min, Max: k.Max, Step: k.Grain(s.Units), Value: v, Shown: phrase.Value(q, s, v), Attempt: said}
}

// A LessonRow is a lesson in a list.
type LessonRow struct{ Title, Steps string }

// OpenName returns the full name of the button that opens the lesson. own is its number
// among the user's own lessons, from 1, or 0 for one that comes with Pivotbench: two
// lessons may have the same title.
func (r *LessonRow) OpenName(own int) string { return OpenButton + " " + r.name(own) }

// DeleteName returns the full name of the button that deletes one of the user's lessons.
func (r *LessonRow) DeleteName(own int) string { return DeleteButton + " " + r.name(own) }

func (r *LessonRow) name(own int) string {
	if own == 0 {
		return r.Title
	}
	return "your lesson " + strconv.Itoa(own) + ": " + r.Title
}

// LessonRowOf returns the row of a lesson.
func LessonRowOf(l *lesson.Lesson) LessonRow {
	row := LessonRow{l.Title, phrase.Count(len(l.Steps), "step", "steps")}
	if row.Title == "" {
		row.Title = "untitled lesson"
	}
	if l.Question != (lesson.Question{}) {
		row.Steps += " and a question"
	}
	return row
}
