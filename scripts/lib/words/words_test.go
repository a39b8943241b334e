package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/scripts/lib/words"
)

func TestOldWords(t *testing.T) {
	for text, want := range map[string]string{
		"Aim it": "Aim it", "the cue on the bench": "bench", "pivot 12 in at 0.50 R": "pivot", "Touches L first": "Touches L",
		"the sheet alone": "sheet", "Which deflects less?": "deflects", "12 tries": "tries", "about the Pivot": "Pivot",
		"Pivotbench": "", "pivot length 12 in": "", "Natural pivot at this offset": "", "benches and sheeting": "",
		"A try again is fine": "", "the natural pivot is a pivot length": "",
	} {
		assert.Equal(t, want, words.Old(text), text)
	}
}

// The syllables are those of a dictionary of English.
func TestSyllables(t *testing.T) {
	for word, want := range map[string]int{
		"cue": 1, "ball": 1, "bridge": 1, "table": 2, "tables": 2, "length": 1, "english": 2, "elevation": 4, "measured": 2, "noted": 2,
		"rounded": 2, "squirt": 1, "swerve": 1, "inches": 2, "misses": 2, "the": 1, "degree": 2, "player": 2, "blocker": 2, "stroke": 1,
		"strokes": 1, "speed": 1, "played": 1, "natural": 3, "12": 1, "a": 1, "edges": 2, "angle": 2, "safely": 2, "clean": 1, "hand's": 1,
	} {
		assert.Equal(t, want, words.Syllables(word), word)
	}
}

// The formula is applied by hand here: 6 words, 1 sentence and 6 syllables; then 9 words,
// 2 sentences and 14 syllables.
func TestGrade(t *testing.T) {
	assert.InDelta(t, 0.39*6+11.8-15.59, words.Grade("The cat sat on the mat."), 1e-9)
	assert.InDelta(t, 0.39*9/2+11.8*14/9-15.59, words.Grade("Measure the table. Then note the elevation of it"), 1e-9)
	assert.InDelta(t, 0.39*3+11.8*6/3-15.59, words.Grade("Elevation 9.5 in"), 1e-9, "a decimal point ends no sentence")
	assert.Zero(t, words.Grade(" – "))
}
