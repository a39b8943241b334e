package store_test

import (
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
	"pivotbench/wasm/store"
)

// strokes are numbered ones.
func strokes(numbers ...int) (out []store.Stroke) {
	for _, n := range numbers {
		out = append(out, store.Stroke{Link: "v=1", See: "clean", When: strconv.Itoa(n)})
	}
	return out
}

func TestMerge(t *testing.T) {
	for _, tc := range []struct {
		name                     string
		base, mine, theirs, want []int
	}{
		{"nothing done", []int{1, 2}, []int{1, 2}, []int{1, 2}, []int{1, 2}},
		{"added here", []int{1}, []int{1, 2}, []int{1}, []int{1, 2}},
		{"added there", []int{1}, []int{1}, []int{1, 3}, []int{1, 3}},
		{"added in both", []int{1}, []int{1, 2}, []int{1, 3}, []int{1, 3, 2}},
		{"the same added in both", []int{1}, []int{1, 2}, []int{1, 2}, []int{1, 2}},
		{"taken out here", []int{1, 2, 3}, []int{1, 3}, []int{1, 2, 3}, []int{1, 3}},
		{"taken out in both", []int{1, 2, 3}, []int{1, 3}, []int{1, 3}, []int{1, 3}},
		{"changed here, added there", []int{1, 2, 3}, []int{1, 20, 3}, []int{1, 2, 3, 4}, []int{1, 20, 3, 4}},
		{"changed here, gone there", []int{1, 2, 3}, []int{1, 20, 3}, []int{1, 3}, []int{1, 3, 20}},
		{"changed alike", []int{1, 2}, []int{1, 20}, []int{1, 20}, []int{1, 20}},
		{"cleared here", []int{1, 2}, nil, []int{1, 2, 3}, []int{3}},
		{"cleared there", []int{1, 2}, []int{1, 2, 3}, nil, []int{3}},
		{"one of two alike", []int{1, 1}, []int{1}, []int{1, 1, 2}, []int{1, 2}},
		{"a second alike", nil, []int{1, 1}, []int{2}, []int{2, 1, 1}},
	} {
		base, mine, theirs := store.Records{Strokes: strokes(tc.base...)}, store.Records{Strokes: strokes(tc.mine...)}, store.Records{Strokes: strokes(tc.theirs...)}
		before := slices.Clone(theirs.Strokes)
		got := store.Merge(base, mine, theirs).Strokes
		assert.Equal(t, strokes(tc.want...), slices.Concat(got), tc.name)
		assert.Equal(t, before, theirs.Strokes, "theirs is left as it was: %s", tc.name)
	}
}

// Every list is merged, and the marks.
func TestMergeTakesAll(t *testing.T) {
	k, err := store.Decode(written(t, "records-v3.json"))
	require.NoError(t, err)
	assert.Equal(t, k.Encode(), store.Merge(store.Records{}, k, store.Records{}).Encode(), "all that is here")
	assert.Equal(t, k.Encode(), store.Merge(store.Records{}, store.Records{}, k).Encode(), "all that is there")
	assert.Equal(t, k.Encode(), store.Merge(k, k, k).Encode())
	assert.Equal(t, store.Records{}.Encode(), store.Merge(k, store.Records{}, k).Encode(), "all taken out here")
}

func TestSwap(t *testing.T) {
	list := strokes(1, 2, 3)
	out, ok := store.Swap(list, list[1])
	assert.True(t, ok)
	assert.Equal(t, strokes(1, 3), out)
	out, ok = store.Swap(list, list[1], strokes(4)[0])
	assert.True(t, ok)
	assert.Equal(t, strokes(1, 4, 3), out)
	_, ok = store.Swap(list, strokes(9)[0])
	assert.False(t, ok)
	assert.Equal(t, strokes(1, 2, 3), list, "the list itself stays")

	lessons := []lesson.Lesson{{Title: "a", Steps: []lesson.Step{{Link: "v=1"}}}, {Title: "b"}}
	left, ok := store.SwapLesson(lessons, lesson.Lesson{Title: "a", Steps: []lesson.Step{{Link: "v=1"}}})
	assert.True(t, ok)
	assert.Equal(t, lessons[1:], left)
}

// Limits hold when something is added, and never keep what is there from being
// read.
func TestFits(t *testing.T) {
	many := make([]int, 5001)
	for i := range many {
		many[i] = i
	}
	over := store.Records{Strokes: strokes(many...)}
	fits := store.Records{Strokes: over.Strokes[:5000]}
	assert.NoError(t, fits.Fits(store.Records{}))
	assert.ErrorContains(t, over.Fits(fits), "5001 strokes is more than Pivotbench can save: up to 5000")
	assert.NoError(t, over.Fits(over), "what is there may stay")
	assert.NoError(t, fits.Fits(over), "and shrink")
	assert.ErrorContains(t, store.Records{Lessons: make([]lesson.Lesson, 501)}.Fits(store.Records{}), "up to 500")

	k, lost, err := store.Restore(over.Encode())
	require.NoError(t, err)
	assert.Empty(t, lost)
	assert.Len(t, k.Strokes, 5001)
}

// One entry that can't be read hides no other, and is not lost.
func TestRestore(t *testing.T) {
	k, err := store.Decode(written(t, "records-v3.json"))
	require.NoError(t, err)
	spoilt := k
	spoilt.Cues = append([]store.CueRecord{{Name: "House 9", How: "guessed", Link: "v=1"}}, k.Cues...)
	spoilt.Strokes = append(strokes(1), store.Stroke{Link: "v=1&bridge=9", See: "clean"})
	got, lost, err := store.Restore(spoilt.Encode())
	assert.ErrorContains(t, err, "cue 1: how it was measured (how): “guessed”")
	assert.ErrorContains(t, err, "stroke 2: bridge")
	assert.Equal(t, k.Cues, got.Cues)
	assert.Equal(t, strokes(1), got.Strokes)
	assert.Equal(t, k.Lessons, got.Lessons)
	assert.Contains(t, lost, "House 9")
	assert.Contains(t, lost, "bridge=9")
	assert.NotContains(t, lost, k.Cues[0].Name)

	for text, want := range map[string]string{"": "not a Pivotbench records file", "{]": "not a Pivotbench records file", `{"v": 7}`: "the records are of version 7"} {
		got, lost, err := store.Restore(text)
		assert.ErrorContains(t, err, want)
		assert.Equal(t, text, lost)
		assert.Zero(t, got)
	}
}

// Names with characters that earlier copies wrote and then refused to read are
// read as what they look like.
func TestNamesOfEarlierCopies(t *testing.T) {
	k := store.Records{
		Cues:    []store.CueRecord{{Name: "House\u00a04\u200d\u00ad", Notes: "dinged\u202fnear\tthe joint\r\nwiped", How: "none", Link: "v=1"}},
		Tables:  []store.Table{{Name: "Table\u200b4\t", Link: "v=1"}},
		Lessons: []lesson.Lesson{{Title: "Tuesday\u00a0class", Steps: []lesson.Step{{Link: "v=1", Caption: "one\ntwo"}}}},
	}
	got, lost, err := store.Restore(k.Encode())
	require.NoError(t, err)
	assert.Empty(t, lost)
	assert.Equal(t, "House 4\u200d", got.Cues[0].Name)
	assert.Equal(t, "dinged near the joint\nwiped", got.Cues[0].Notes)
	assert.Equal(t, "Table4", got.Tables[0].Name)
	assert.Equal(t, "Tuesday class", got.Lessons[0].Title)
	assert.Equal(t, "one two", got.Lessons[0].Steps[0].Caption)
	again, _, err := store.Restore(got.Encode())
	require.NoError(t, err)
	assert.Equal(t, got.Encode(), again.Encode())
}
