package qr

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTooLong(t *testing.T) {
	// Capacities of version 40 in byte mode: table 7 of the standard, from memory.
	for level, most := range []int{L: 2953, M: 2331, Q: 1663, H: 1273} {
		text := filler(most)
		code, err := Encode(text, Level(level))
		require.NoError(t, err)
		assert.Equal(t, 177, code.Size)
		code, err = Encode(text+"x", Level(level))
		require.Error(t, err)
		assert.Zero(t, code)
		_, same := Size(most+1, Level(level))
		assert.Equal(t, err, same)
	}
	_, err := Size(3000, M)
	assert.EqualError(t, err, "3000 bytes of text; a QR code of level M holds at most 2331")
}

// Capacities of small versions in byte mode: table 7 of the standard, from memory.
func TestSize(t *testing.T) {
	for _, c := range []struct {
		bytes int
		level Level
		size  int
	}{
		{0, L, 21}, {17, L, 21}, {18, L, 25}, {14, M, 21}, {15, M, 25}, {11, Q, 21}, {7, H, 21}, {8, H, 25},
		{230, L, 53}, {231, L, 57}, {271, L, 57}, {272, L, 61},
	} {
		size, err := Size(c.bytes, c.level)
		require.NoError(t, err)
		assert.Equal(t, c.size, size, "%d bytes, level %v", c.bytes, c.level)
	}
}

func TestOutsideIsLight(t *testing.T) {
	code, err := Encode("v=1", M)
	require.NoError(t, err)
	assert.True(t, code.Black(0, 0))
	assert.True(t, code.Black(code.Size-1, 0))
	for _, at := range [][2]int{{-1, 0}, {0, -1}, {code.Size, 0}, {0, code.Size}} {
		assert.False(t, code.Black(at[0], at[1]), at)
	}
}

func TestTheMaskHasTheLeastPenalty(t *testing.T) {
	for v := version(1); v <= largest; v++ {
		level := Level(v % 4)
		text := filler(v.capacity(level))
		code, err := Encode(text, level)
		require.NoError(t, err)
		isOne := false
		for mask := range masks {
			other := unmasked(text, v, level).masked(level, mask)
			assert.LessOrEqual(t, code.penalty(), other.penalty(), "version %d, level %v, mask %d", v, level, mask)
			isOne = isOne || assert.ObjectsAreEqual(other, code)
		}
		assert.True(t, isOne)
	}
}
