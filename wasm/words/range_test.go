package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/wasm/words"
)

func TestRange(t *testing.T) {
	assert.Equal(t, "1.0 to 2.5 in", words.Range("1.0 in", "2.5 in"))
	assert.Equal(t, "2.5 in", words.Range("2.5 in", "2.5 in"))
	assert.Equal(t, "3 mm to 2 cm", words.Range("3 mm", "2 cm"))
	assert.Equal(t, "1.0° to 2.0°", words.Range("1.0°", "2.0°"))
}
