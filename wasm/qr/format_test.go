package qr

import (
	"math/bits"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The worked examples of clauses 7.9.1 (level M, mask 101) and 7.10 (version
// 7) of the standard, from memory.
func TestWorkedExamples(t *testing.T) {
	assert.EqualValues(t, 0b100000011001110, format(M, 5))
	assert.EqualValues(t, 0b000111110010010100, protected(7, 0b1111100100101))
}

// Any two formats differ in at least 7 bits, which corrects three, and any two versions
// in at least 8 (annexes C and D, from memory).
func TestDistances(t *testing.T) {
	var formats, versions []uint
	for level := L; level <= H; level++ {
		for mask := range masks {
			formats = append(formats, format(level, mask))
		}
	}
	for v := uint(7); v <= uint(largest); v++ {
		versions = append(versions, protected(v, 0b1111100100101))
	}
	for least, words := range map[int][]uint{7: formats, 8: versions} {
		nearest := 99
		for i, a := range words {
			for _, b := range words[:i] {
				nearest = min(nearest, bits.OnesCount(a^b))
			}
		}
		assert.Equal(t, least, nearest)
	}
	for _, f := range formats {
		assert.NotZero(t, f)
	}
}
