package store

import (
	"errors"
	"strconv"

	"pivotbench/core/lesson"
	"pivotbench/wasm/codec"
)

const (
	// lessonVersion is the version of the file format for a single lesson.
	lessonVersion = 1

	// mostLessons is the maximum number of lessons in the records.
	mostLessons = 500
)

// A lessonFile is the file of a single lesson: {"v": 1, "title", "steps": [{"link", "caption"}],
// "question": {"text", "key", "goal"}}.
type lessonFile struct {
	V int
	lesson.Lesson
}

func (l *lessonFile) fields(f codec.Fields) {
	f.Whole("v", &l.V)
	lessonFields(&l.Lesson, f)
}

func lessonFields(l *lesson.Lesson, f codec.Fields) {
	f.Text("title", &l.Title)
	codec.List(f, "steps", lesson.MostSteps, &l.Steps, stepFields)
	codec.Record(f, "question", l.Question != lesson.Question{}, &l.Question, questionFields)
}

func questionFields(q *lesson.Question, f codec.Fields) {
	f.Text("text", &q.Text)
	f.Text("key", &q.Key)
	f.Text("goal", (*string)(&q.Goal))
}

func stepFields(s *lesson.Step, f codec.Fields) {
	f.Text("link", &s.Link)
	f.Text("caption", &s.Caption)
}

// EncodeLesson returns the JSON file of a single lesson.
func EncodeLesson(l lesson.Lesson) string {
	file := lessonFile{lessonVersion, l}
	return codec.WriteJSON(file.fields)
}

// DecodeLesson reads a single lesson from its file. ok is false if the file is not a
// lesson. On an error, which names everything that is wrong up to a limit, it returns an
// empty lesson.
func DecodeLesson(text string) (l lesson.Lesson, ok bool, err error) {
	steps := false
	if err := codec.ReadJSON(text, func(f codec.Fields) { f.Has("steps", &steps) }); err != nil || !steps {
		return l, false, nil
	}
	var f lessonFile
	if err := codec.ReadJSON(text, f.fields); err != nil {
		return l, true, errors.New("this is not a Pivotbench lesson: " + err.Error())
	}
	if f.V != lessonVersion {
		return l, true, errors.New("the lesson is of version " + strconv.Itoa(f.V) + ", but this copy of Pivotbench reads version " + strconv.Itoa(lessonVersion))
	}
	made := f.Lesson.Clean()
	var wrong faults
	for _, what := range LessonFaults(&made) {
		wrong.add("the lesson", what)
	}
	if wrong != nil {
		return l, true, errors.Join(wrong...)
	}
	return made, true, nil
}

// LessonFaults describes everything that is wrong with a lesson. It returns nil for a
// valid lesson.
func LessonFaults(l *lesson.Lesson) (out []string) {
	for _, err := range l.Check() {
		out = append(out, err.Error())
	}
	return out
}
