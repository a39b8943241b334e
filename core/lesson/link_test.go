package lesson_test

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
	"pivotbench/core/link"
	"pivotbench/core/scenario"
)

func TestLink(t *testing.T) {
	const want = "lesson&v=1&title=Short_%26_long%3A_Harbour_Hall&steps=3" +
		"&step=v:1;bridge:8in&say=Too_short%3A_%7Barrival%7D." +
		"&step=v:1;name:a%20%26%20b%3B%3A;bridge:20in&say=Too%5Flong,_100_%25_%3Cb%3Eso%3C%2Fb%3E" +
		"&step=v:1&say=&ask=Where_to%3F&drag=bridge&goal=arrives&end"
	l := lesson.Link{Lesson: small()}
	assert.Equal(t, want, l.Format())
	for _, end := range []string{"", ".", ")", "”", ").", " ", "\n"} {
		back, errs := lesson.ParseLink("https://example.org/bench/#" + want + end)
		assert.Empty(t, errs, end)
		assert.Equal(t, l, back, end)
	}
	assert.Equal(t, lesson.Kind, link.Kind("table.html#"+want))
}

func TestLinkOfAShippedLesson(t *testing.T) {
	l := lesson.Link{Lesson: lesson.Shipped[1].Lesson, Shipped: "pivot", Units: "cm", At: 2}
	assert.Equal(t, "lesson&v=1&units=cm&at=3&shipped=pivot", l.Format())
	back, errs := lesson.ParseLink(l.Format() + ".")
	assert.Empty(t, errs)
	back.Lesson.Steps = nil // canonical texts, tested below
	l.Lesson.Steps = nil
	assert.Equal(t, l, back)

	other, errs := lesson.ParseLink("lesson&units=cm&shipped=pivot&at=3&v=1")
	assert.Empty(t, errs, "in any order")
	other.Lesson.Steps = nil
	assert.Equal(t, l, other)

	lost, errs := lesson.ParseLink("lesson&v=1&shipped=piv")
	assert.Equal(t, "this copy of Pivotbench has no lesson called “piv”", messages(errs))
	assert.Empty(t, lost.Lesson.Steps)
	assert.Empty(t, lost.Shipped)
}

// A messenger may cut a link anywhere. Everything kept was sent, and everything lost is
// reported.
func TestLinkCutAnywhere(t *testing.T) {
	sent := lesson.Link{Lesson: lesson.Shipped[2].Lesson}
	for i := range sent.Lesson.Steps {
		scene := sent.Lesson.Steps[i].Scene("")
		sent.Lesson.Steps[i].Link = scene.Format()
	}
	text := sent.Format()
	longer := 0
	for end := len("lesson&v=1&"); end < len(text); end++ {
		got, errs := lesson.ParseLink(text[:end])
		require.NotEmpty(t, errs, text[:end])
		require.Contains(t, messages(errs), "the link was cut short", text[:end])
		steps := got.Lesson.Steps
		require.LessOrEqual(t, len(steps), len(sent.Lesson.Steps))
		require.Equal(t, sent.Lesson.Steps[:len(steps)], append([]lesson.Step{}, steps...), text[:end])
		require.GreaterOrEqual(t, len(steps), longer, "no step that arrived is lost again")
		longer = len(steps)
		require.True(t, strings.HasPrefix(sent.Lesson.Title, got.Lesson.Title))
		require.Empty(t, got.Lesson.Question)
	}
	assert.Equal(t, len(sent.Lesson.Steps), longer)

	_, errs := lesson.ParseLink(text[:strings.LastIndex(text, "&say=")+9])
	assert.Equal(t, "the link was cut short: 5 of 6 steps are here", messages(errs))
	_, errs = lesson.ParseLink(text[:strings.LastIndex(text, "&goal=")+9])
	assert.Equal(t, "the link was cut short: all steps are here, but the question may be lost", messages(errs))
	_, errs = lesson.ParseLink("lesson&v=1&steps=1&step=v:1&say=a&ask=Whe")
	assert.Equal(t, "the link was cut short: all steps are here, but the question may be lost", messages(errs))
	_, errs = lesson.ParseLink("lesson&v=1&steps=1&step=v:1")
	assert.Equal(t, "the link was cut short: 0 of 1 steps are here", messages(errs))
	none, errs := lesson.ParseLink("lesson&v=1&step=v:1&say=a&step")
	assert.Equal(t, "the link was cut short: no step is here. Copy the whole link", messages(errs))
	assert.Empty(t, none.Lesson.Steps)
}

func TestLinkWithInvalidParts(t *testing.T) {
	many := lesson.Link{Lesson: lesson.Lesson{Title: "Many", Steps: make([]lesson.Step, 200)}}
	for _, c := range []struct {
		text, want string
		steps      int
	}{
		{"lesson&v=2&title=a&steps=1&step=v:1&say=b&end", "this lesson is of version 2, but this copy of Pivotbench reads version 1: get a newer copy", 0},
		{many.Format(), "200 steps, but a lesson has at most 50: the rest were left out", 50},
		{"lesson&v=1&say=early&steps=1&step=v:1;side:3&say=b&end", "step 1, side: “3” can't be used; allowed: −0.80 to 0.80; 0.40 kept", 1},
		{"lesson&v=1&steps=1&step=v:1&say=" + strings.Repeat("x", 500) + "&end", "step 1: more than 400 characters; the rest was left out", 1},
		{"lesson&v=1&steps=1&step=v:1&say=a%07b&end", "step 1: characters that can't be shown were left out", 1},
		{"lesson&v=1&title=" + strings.Repeat("x", 61) + "&steps=1&step=v:1&say=&end", "title: more than 60 characters; the rest was left out", 1},
		{"lesson&v=1&steps=1&step=v:1&say=&ask=a&drag=cloth&goal=arrives&end", "the question was left out: control “cloth”, allowed: the name of a control that is a number, such as bridge", 1},
		{"lesson&v=1&steps=1&step=v:1&say=&ask=a&drag=side&goal=&end", "the question was left out: goal “”, allowed: arrives, launches, passes, pots", 1},
		{"lesson&v=1&units=ell&at=9&shipped=swerve", "units: “ell” can't be used; allowed: in, cm", 6},
		{"lesson&v=1&colour=red&steps=1&step=v:1&say=&end", "the link has a part named “colour”, which no lesson has: it was left out", 1},
	} {
		got, errs := lesson.ParseLink(c.text)
		assert.Equal(t, c.want, messages(errs), c.text)
		assert.Len(t, got.Lesson.Steps, c.steps, c.text)
		if c.steps > 0 {
			assert.Less(t, got.At, got.Lesson.Stops(), c.text)
			assert.Empty(t, got.Lesson.Check(), c.text)
		}
	}
	of := func(characters int) string {
		const start, end = "lesson&v=1&steps=1&step=v:1&say=", "&end"
		_, errs := lesson.ParseLink(start + strings.Repeat("x", characters-len(start)-len(end)) + end)
		return messages(errs)
	}
	assert.Contains(t, of(2_000_000), "the link is too long: only the first 1080384 characters were read")
}

// The longest lesson travels whole, in characters of four bytes.
func TestTheLongestLessonTravelsWhole(t *testing.T) {
	wide := func(characters int) string { return strings.Repeat("😀", characters) }
	scene := scenario.Default()
	scene.Name = wide(60)
	for i := range scene.More {
		scene.More[i] = scene.OnBench()
	}
	long := lesson.Lesson{Title: wide(lesson.LongestTitle), Question: small().Question}
	long.Question.Text = wide(lesson.LongestWords)
	for range lesson.MostSteps {
		long.Steps = append(long.Steps, lesson.Step{Link: scene.Format(), Caption: wide(lesson.LongestWords)})
	}
	require.Empty(t, long.Check())
	got, errs := lesson.ParseLink(lesson.Link{Lesson: long}.Format())
	assert.Empty(t, errs)
	assert.True(t, got.Lesson.Equal(&long))
}

// FuzzParseLink checks that whatever is read can be shown, and survives a round trip.
func FuzzParseLink(f *testing.F) {
	f.Add(lesson.Link{Lesson: small()}.Format())
	f.Add("lesson&v=1&units=cm&at=3&shipped=pivot")
	f.Add("lesson&v=1&steps=2&step=v:1;bridge:%&say=%ff&step")
	f.Fuzz(func(t *testing.T, text string) {
		got, errs := lesson.ParseLink(text)
		for _, err := range errs {
			require.NotEmpty(t, err.Error())
			require.True(t, utf8.ValidString(err.Error()), err.Error())
		}
		if len(got.Lesson.Steps) == 0 {
			return
		}
		require.Empty(t, got.Lesson.Check())
		back, errs := lesson.ParseLink(got.Format())
		require.Empty(t, errs)
		require.Equal(t, got, back)
	})
}

func ExampleLink_Format() {
	l := lesson.Link{Lesson: lesson.Lesson{
		Title: "Short",
		Steps: []lesson.Step{{Link: "bridge=8in", Caption: "It arrives {arrival}."}},
	}}
	fmt.Println(l.Format())
	// Output: lesson&v=1&title=Short&steps=1&step=v:1;bridge:8in&say=It_arrives_%7Barrival%7D.&end
}
