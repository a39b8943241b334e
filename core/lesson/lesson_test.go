package lesson_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
)

// small returns a short lesson that a user could have made.
func small() lesson.Lesson {
	return lesson.Lesson{
		Title: "Short & long: Harbour Hall",
		Steps: []lesson.Step{
			{Link: "v=1&bridge=8in", Caption: "Too short: {arrival}."},
			{Link: "v=1&name=a%20%26%20b%3B%3A&bridge=20in", Caption: "Too_long, 100 % <b>so</b>"},
			{Link: "v=1", Caption: ""},
		},
		Question: lesson.Question{Text: "Where to?", Key: "bridge", Goal: lesson.Arrives},
	}
}

func messages(errs []error) string {
	lines := make([]string, len(errs))
	for i, err := range errs {
		lines[i] = err.Error()
	}
	return strings.Join(lines, "\n")
}

func TestCheck(t *testing.T) {
	good := small()
	assert.Empty(t, good.Check())
	for _, c := range []struct {
		spoil func(*lesson.Lesson)
		want  string
	}{
		{func(l *lesson.Lesson) { l.Title = strings.Repeat("é", 61) }, "title: 61 characters, allowed: up to 60"},
		{func(l *lesson.Lesson) { l.Title = "a\u0007" }, `title: it has characters that can't be shown: "a\a"`},
		{func(l *lesson.Lesson) { l.Steps = nil }, "0 steps, but a lesson has 1 to 50"},
		{func(l *lesson.Lesson) { l.Steps = make([]lesson.Step, 200) }, "200 steps, but a lesson has 1 to 50"},
		{func(l *lesson.Lesson) { l.Steps[1].Caption = strings.Repeat("x", 401) }, "step 2: 401 characters, allowed: up to 400"},
		{func(l *lesson.Lesson) { l.Steps[1].Caption = "\xff" }, `step 2: it has characters that can't be shown: "\xff"`},
		{func(l *lesson.Lesson) { l.Steps[2].Link = "side=2" }, "step 3: side: “2” can't be used; allowed: −0.80 to 0.80; 0.40 kept"},
		{func(l *lesson.Lesson) { l.Question.Key = "cloth" }, "question: control “cloth”, allowed: the name of a control that is a number, such as bridge"},
		{func(l *lesson.Lesson) { l.Question.Key = "nosuch" }, "question: control “nosuch”, allowed: the name of a control that is a number, such as bridge"},
		{func(l *lesson.Lesson) { l.Question.Goal = "wins" }, "question: goal “wins”, allowed: arrives, launches, passes, pots"},
		{func(l *lesson.Lesson) { l.Question.Text = strings.Repeat("x", 401) }, "question: 401 characters, allowed: up to 400"},
	} {
		bad := small()
		c.spoil(&bad)
		assert.Equal(t, c.want, messages(bad.Check()))
	}
	none := small()
	none.Question = lesson.Question{}
	assert.Empty(t, none.Check(), "a lesson need not ask anything")
}

func TestClean(t *testing.T) {
	l := small()
	l.Title, l.Steps[0].Caption, l.Question.Text = " one\n\ttwo\u00a0", "three\u0000", "\u00adfour "
	was := l
	clean := l.Clean()
	assert.Equal(t, []string{"one two", "three", "four"}, []string{clean.Title, clean.Steps[0].Caption, clean.Question.Text})
	assert.Empty(t, clean.Check())
	assert.Equal(t, was.Steps[0], l.Steps[0], "the lesson itself stays")
}

func TestSceneInTheReadersUnits(t *testing.T) {
	step := lesson.Step{Link: "v=1&bridge=8in&units=cm"}
	own, read := step.Scene(""), step.Scene("in")
	assert.Equal(t, "cm", own.Units)
	assert.Equal(t, "in", read.Units)
	assert.Equal(t, 8*unit.Inch, read.Bridge)
}

func TestBetween(t *testing.T) {
	from, _ := scenario.Parse("bridge=8in&side=0.2&cloth=new&slide=0.1&speed=4mph&name=a&back=0")
	to, _ := scenario.Parse("bridge=12in&side=-0.2&cloth=damp&speed=8mph&name=b&back=1")
	assert.Equal(t, from, lesson.Between(&from, &to, 0))
	assert.Equal(t, from, lesson.Between(&from, &to, -1))
	assert.Equal(t, to, lesson.Between(&from, &to, 1))
	assert.Equal(t, to, lesson.Between(&from, &to, 2))

	half := lesson.Between(&from, &to, 0.5)
	assert.InDelta(t, float64(10*unit.Inch), float64(half.Bridge), 1e-15)
	assert.InDelta(t, 0, half.Side, 1e-15)
	assert.InDelta(t, float64(6*unit.MilePerHour), float64(half.Speed), 1e-15)
	assert.InDelta(t, 0.5, half.Back, 1e-15)
	assert.Equal(t, "damp", half.Cloth, "names are the later one's at once")
	assert.Equal(t, "b", half.Name)
	damp := to.GearCloth().Slide
	assert.InDelta(t, (0.1+damp)/2, half.GearCloth().Slide, 1e-15, "an override goes over to what the name sets")
	assert.Equal(t, to.Pivot, half.Pivot)

	stroke, _ := scenario.Parse("stroke=5mph")
	late := lesson.Between(&from, &stroke, 0.5)
	assert.True(t, late.ByStroke)
	assert.Equal(t, stroke.Speed, late.Speed, "a ball's speed and a cue's have nothing between them")
}

// Two lessons are equal if all their parts are. A change to any part makes them differ.
func TestEqual(t *testing.T) {
	one, same := small(), small()
	assert.True(t, one.Equal(&same))
	for name, change := range map[string]func(*lesson.Lesson){
		"title":       func(l *lesson.Lesson) { l.Title += "!" },
		"link":        func(l *lesson.Lesson) { l.Steps[1].Link += "0" },
		"caption":     func(l *lesson.Lesson) { l.Steps[2].Caption = "Now this." },
		"order":       func(l *lesson.Lesson) { l.Steps[0], l.Steps[1] = l.Steps[1], l.Steps[0] },
		"one fewer":   func(l *lesson.Lesson) { l.Steps = l.Steps[:2] },
		"text":        func(l *lesson.Lesson) { l.Question.Text = "Where?" },
		"key":         func(l *lesson.Lesson) { l.Question.Key = "side" },
		"goal":        func(l *lesson.Lesson) { l.Question.Goal = lesson.Passes },
		"no question": func(l *lesson.Lesson) { l.Question = lesson.Question{} },
	} {
		other := small()
		change(&other)
		assert.False(t, one.Equal(&other), name)
		assert.False(t, other.Equal(&one), name)
	}
}

// A lesson may be as long as its limits, and no longer.
func TestCheckAtTheLimits(t *testing.T) {
	at := func(steps, title, words int) error {
		l := lesson.Lesson{Title: strings.Repeat("é", title), Question: small().Question}
		for range steps {
			l.Steps = append(l.Steps, lesson.Step{Caption: strings.Repeat("é", words)})
		}
		l.Question.Text = strings.Repeat("é", words)
		return errors.Join(l.Check()...)
	}
	assert.NoError(t, at(lesson.MostSteps, lesson.LongestTitle, lesson.LongestWords))
	assert.NoError(t, at(1, 0, 0))
	assert.Error(t, at(lesson.MostSteps+1, 0, 0))
	assert.Error(t, at(1, lesson.LongestTitle+1, 0))
	assert.Error(t, at(1, 0, lesson.LongestWords+1))
}
