package kept

import (
	"encoding/json"
	"errors"
	"strconv"
	"strings"

	"pivotbench/core/lesson"
)

const (
	// lessonVersion is that of the file a lesson by itself travels in.
	lessonVersion = 1

	// mostLessons is more than anybody teaches.
	mostLessons = 500
)

// A lessonFile is {"v": 1, "title", "steps": [{"link", "caption"}],
// "question": {"text", "key", "goal"}}.
type lessonFile struct {
	V int `json:"v"`
	lesson.Lesson
}

// EncodeLesson writes a lesson as a JSON file of its own.
func EncodeLesson(l lesson.Lesson) string { return encode(lessonFile{lessonVersion, l}) }

// DecodeLesson reads a lesson from its file. ok is false for a file of another
// kind. On an error, which names every step that is wrong, nothing is read.
func DecodeLesson(text string) (l lesson.Lesson, ok bool, err error) {
	var keys map[string]json.RawMessage
	if json.Unmarshal([]byte(strings.TrimPrefix(text, "\uFEFF")), &keys) != nil || keys["steps"] == nil {
		return l, false, nil
	}
	var f lessonFile
	if err := json.Unmarshal([]byte(strings.TrimPrefix(text, "\uFEFF")), &f); err != nil {
		return l, true, errors.New("not a lesson of this bench: " + err.Error())
	}
	if f.V != lessonVersion {
		return l, true, errors.New("a lesson of version " + strconv.Itoa(f.V) + "; this copy reads version " + strconv.Itoa(lessonVersion))
	}
	if err := checkLesson("the lesson", &f.Lesson); err != nil {
		return l, true, err
	}
	return f.Lesson, true, nil
}

// checkLessons names every lesson that can't be taken.
func checkLessons(lessons []lesson.Lesson) error {
	if len(lessons) > mostLessons {
		return errors.New(strconv.Itoa(len(lessons)) + " lessons; a file has at most " + strconv.Itoa(mostLessons))
	}
	var errs []error
	for i := range lessons {
		errs = append(errs, checkLesson("lesson "+strconv.Itoa(i+1), &lessons[i]))
	}
	return errors.Join(errs...)
}

func checkLesson(where string, l *lesson.Lesson) error {
	var f faults
	for _, err := range l.Check() {
		f.add(where, err.Error())
	}
	return errors.Join(f...)
}
