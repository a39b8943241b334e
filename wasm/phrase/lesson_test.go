package phrase_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

func TestStop(t *testing.T) {
	l := lesson.Lesson{
		Steps: []lesson.Step{
			{Link: "elev=0deg&bridge=16in", Caption: "The ball leaves {launch}."},
			{Link: "elev=0deg&bridge=16in&pivot=9.5in", Caption: "Off {bridge}."},
		},
		Question: lesson.Question{Text: "Where must it lie?", Key: "bridge", Goal: lesson.Launches},
	}
	first := l.Steps[0].Scene("")
	launch := play(&first).Reading.Launch.Value
	assert.Equal(t, "The ball leaves "+phrase.Turned(launch)+".", phrase.Stop(&l, 0, "in"))
	assert.Equal(t, "Off 40.6 cm.", phrase.Stop(&l, 1, "cm"))
	assert.Equal(t, "Where must it lie?", phrase.Stop(&l, 2, "in"))

	// The closed form of the natural pivot length is what the answer searches for.
	last := l.Steps[1].Scene("in")
	natural := phrase.Brief(phrase.Length(&last, play(&last).Reading.PivotNatural.Value))
	assert.Contains(t, phrase.Stop(&l, 3, "in"), "Bridge "+natural+". Anything from 8.8 in to ")

	// Every value in the answer can be dragged to and meets the goal.
	for _, units := range []string{"in", "cm"} {
		k, at := scenario.Find("bridge"), l.Steps[1].Scene(units)
		a, err := l.Question.Answer(&at)
		require.NoError(t, err)
		for _, v := range []float64{k.Stepped(a.From, units, math.Ceil), k.Stepped(a.To, units, math.Floor)} {
			k.Put(&at, v)
			_, met := phrase.Attempt(&l.Question, &at)
			assert.True(t, met)
			assert.Contains(t, phrase.Stop(&l, 3, units), phrase.Length(&at, unit.Length(v)))
		}
	}

	l.Question.Goal = lesson.Pots
	l.Steps[1].Link = "speed=1mph&dist=90in"
	assert.Equal(t, "No answer: no value of this control works.", phrase.Stop(&l, 3, "in"))
}

func TestAttempt(t *testing.T) {
	for _, c := range []struct {
		link, key string
		goal      lesson.Goal
		said      string
		met       bool
	}{
		{"side=0", "side", lesson.Arrives, "That works: on the line.", true},
		{"bridge=8in", "bridge", lesson.Arrives, "Not yet: 0.88 in right of the line.", false},
		{"bridge=8in&units=cm", "bridge", lesson.Arrives, "Not yet: 22.3 mm right of the line.", false},
		{"bridge=8in", "bridge", lesson.Launches, "Not yet: 1.05° right of the line.", false},
		{"bridge=8in", "bridge", lesson.Passes, "Not yet: 0.70 in right of the middle.", false},
		{"side=0", "side", lesson.Passes, "That works: on the line.", true},
		{"gate=0in", "side", lesson.Passes, "Not yet: no blockers are set.", false},
	} {
		s, _ := scenario.Parse(c.link)
		q := lesson.Question{Key: c.key, Goal: c.goal}
		said, met := phrase.Attempt(&q, &s)
		assert.Equal(t, c.said, said, c.link)
		assert.Equal(t, c.met, met, c.link)
	}
}

func TestValue(t *testing.T) {
	s := scenario.Default()
	for _, c := range []struct {
		key  string
		v    float64
		want string
	}{
		{"bridge", float64(9.1 * unit.Inch), "9.1 in"},
		{"bridge", 99, "40 in"},
		{"back", 1.25, "125 %"},
		{"side", -0.1, "0.10 R left"},
		{"elev", float64(5 * unit.Degree), "5°"},
	} {
		q := lesson.Question{Key: c.key}
		assert.Equal(t, c.want, phrase.Value(&q, &s, c.v))
	}
	require.Equal(t, scenario.Default(), s)
}

// The author of a lesson is warned of a question with nothing to drag, and of one without
// an answer. The shipped lessons have neither.
func TestFlaw(t *testing.T) {
	l := lesson.Lesson{Steps: []lesson.Step{{Link: "bridge=8in"}, {Link: "side=0"}}, Question: lesson.Question{Text: "Where?", Key: "side", Goal: lesson.Arrives}}
	assert.Contains(t, phrase.Flaw(&l, "in"), "already answers this question")
	l.Steps = l.Steps[:1]
	assert.Empty(t, phrase.Flaw(&l, "in"))
	l.Question.Goal, l.Steps = lesson.Pots, []lesson.Step{{Link: "speed=1mph&dist=90in"}}
	assert.Contains(t, phrase.Flaw(&l, "in"), "This question has no answer: no value of this control works.")
	l.Question = lesson.Question{}
	assert.Empty(t, phrase.Flaw(&l, "in"))
	assert.Empty(t, phrase.Flaw(&lesson.Lesson{}, "in"))
	for _, named := range lesson.Shipped {
		assert.Empty(t, phrase.Flaw(&named.Lesson, "in"), named.Name)
	}
}
