package phrase_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

func TestUpper(t *testing.T) {
	for text, want := range map[string]string{
		"the tip slips": "The tip slips", "51 steps; a lesson has 1 to 50": "51 steps; a lesson has 1 to 50", "“house”: no such key": "“house”: no such key",
		"öl": "Öl", "Clean": "Clean", "": "", "\xff": "\xff",
	} {
		assert.Equal(t, want, phrase.Upper(text))
	}
}

func TestCount(t *testing.T) {
	for n, want := range map[int]string{0: "0 tries", 1: "1 try", 2: "2 tries", 11: "11 tries", 21: "21 tries"} {
		assert.Equal(t, want, phrase.Count(n, "try", "tries"))
	}
}

func TestPivotsWithoutEnd(t *testing.T) {
	s := scenario.Default()
	assert.Equal(t, "9.6 in", phrase.Length(&s, 9.6*unit.Inch))
	assert.Equal(t, "over 1000 in", phrase.Length(&s, 24388*unit.Inch))
	assert.Equal(t, "probably 9.0 to 10.3 in (90 %)", phrase.Within(&s, 9*unit.Inch, 10.3*unit.Inch))
	assert.Equal(t, "probably over 9.0 in (90 %)", phrase.Within(&s, 9*unit.Inch, 24388*unit.Inch))
	s.Units = "cm"
	assert.Equal(t, "over 2540 cm", phrase.Length(&s, 24388*unit.Inch))
}
