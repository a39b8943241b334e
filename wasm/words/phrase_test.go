package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/words"
)

func TestUpper(t *testing.T) {
	for text, want := range map[string]string{
		"the tip slips": "The tip slips", "51 steps; a lesson has 1 to 50": "51 steps; a lesson has 1 to 50", "“house”: no such key": "“house”: no such key",
		"öl": "Öl", "Clean": "Clean", "": "", "\xff": "\xff",
	} {
		assert.Equal(t, want, words.Upper(text))
	}
}

func TestCount(t *testing.T) {
	for n, want := range map[int]string{0: "0 tries", 1: "1 try", 2: "2 tries", 11: "11 tries", 21: "21 tries"} {
		assert.Equal(t, want, words.Count(n, "try", "tries"))
	}
}

func TestPivotsWithoutEnd(t *testing.T) {
	s := scenario.Default()
	assert.Equal(t, "9.6 in", words.Length(&s, 9.6*unit.Inch))
	assert.Equal(t, "over 1000 in", words.Length(&s, 24388*unit.Inch))
	assert.Equal(t, "90 % between 9.0 and 10.3 in", words.Within(&s, 9*unit.Inch, 10.3*unit.Inch))
	assert.Equal(t, "90 % from 9.0 in up", words.Within(&s, 9*unit.Inch, 24388*unit.Inch))
	s.Units = "cm"
	assert.Equal(t, "over 2540 cm", words.Length(&s, 24388*unit.Inch))
}
