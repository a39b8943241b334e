package phrase_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/wasm/phrase"
)

func TestRange(t *testing.T) {
	assert.Equal(t, "1.0 to 2.5 in", phrase.Range("1.0 in", "2.5 in"))
	assert.Equal(t, "2.5 in", phrase.Range("2.5 in", "2.5 in"))
	assert.Equal(t, "3 mm to 2 cm", phrase.Range("3 mm", "2 cm"))
	assert.Equal(t, "1.0° to 2.0°", phrase.Range("1.0°", "2.0°"))
}
