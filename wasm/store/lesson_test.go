package store_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
	"pivotbench/wasm/store"
)

func TestLessonFile(t *testing.T) {
	l := lesson.Lesson{
		Title:    "Short & long",
		Steps:    []lesson.Step{{Link: "v=1&bridge=8in", Caption: "It arrives {arrival}, <b>so</b>."}},
		Question: lesson.Question{Text: "Where?", Key: "bridge", Goal: lesson.Arrives},
	}
	text := store.EncodeLesson(l)
	assert.JSONEq(t, `{"v": 1, "title": "Short & long", "steps": [{"link": "v=1&bridge=8in", "caption": "It arrives {arrival}, <b>so</b>."}],
		"question": {"text": "Where?", "key": "bridge", "goal": "arrives"}}`, text)
	back, ok, err := store.DecodeLesson("\uFEFF" + text)
	require.NoError(t, err)
	assert.True(t, ok)
	assert.Equal(t, l, back)

	l.Question = lesson.Question{}
	assert.NotContains(t, store.EncodeLesson(l), "question")

	for _, c := range []struct{ text, want string }{
		{`{"v": 2, "title": "", "steps": []}`, "the lesson is of version 2, but this copy of Pivotbench reads version 1"},
		{`{"v": 1, "title": 5, "steps": []}`, "not a Pivotbench lesson: "},
		{`{"v": 1, "title": "", "steps": []}`, "the lesson: 0 steps, but a lesson has 1 to 50"},
		{`{"v": 1, "title": "", "steps": [{"link": "side=9"}]}`, "the lesson: step 1: side: “9” can't be used"},
		{`{"v": 1, "title": "", "steps": [` + strings.Repeat(`{"link": "v=1"},`, 199) + `{"link": "v=1"}]}`, "not a Pivotbench lesson: line 1: 200 steps, allowed: up to 50"},
	} {
		_, ok, err := store.DecodeLesson(c.text)
		assert.True(t, ok, c.text)
		assert.ErrorContains(t, err, c.want)
	}
	for _, text := range []string{"", "link,outcome,when", store.Records{}.Encode(), "[]"} {
		_, ok, err := store.DecodeLesson(text)
		assert.False(t, ok, text)
		assert.NoError(t, err)
	}
}

func TestLessonsTravelWithTheRecords(t *testing.T) {
	k := store.Records{V: 2, Lessons: []lesson.Lesson{{Title: "Mine", Steps: []lesson.Step{{Link: "v=1"}}}}}
	back, err := store.Decode(k.Encode())
	require.NoError(t, err)
	assert.Equal(t, k.Lessons, back.Lessons)

	k.Lessons[0].Steps[0].Link = "bridge=12"
	_, err = store.Decode(k.Encode())
	assert.ErrorContains(t, err, "lesson 1: step 1: bridge: “12” can't be used")
}
