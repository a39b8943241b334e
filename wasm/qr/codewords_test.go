package qr

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// By hand from clause 7.4: 0100, 00000010, "ab", 0000, padding. From version 10 on the
// length takes 16 bits.
func TestMessage(t *testing.T) {
	assert.Equal(t, []byte{0x40, 0x26, 0x16, 0x20, 0xec, 0x11, 0xec}, message("ab", 9, 7))
	assert.Equal(t, []byte{0x40, 0x00, 0x26, 0x16, 0x20, 0xec, 0x11}, message("ab", 10, 7))
	assert.Equal(t, []byte{0x40, 0x26, 0x16, 0x20}, message("ab", 1, 4), "full to the last byte")
	assert.Equal(t, []byte{0x40, 0x00, 0xec}, message("", 1, 3))
}

// By hand from clause 7.6: two blocks of two and one of three codewords, each with two
// check words, the remainder of a division by x²+3x+2.
func TestInterleave(t *testing.T) {
	out := interleave([]byte{1, 0, 0, 1, 0, 0, 0}, 3, 2)
	assert.Equal(t, []byte{1, 0, 0, 0, 1, 0, 0}, out[:7])
	assert.Equal(t, []byte{
		7, 3, 0, // x³ leaves 7x+6, x² leaves 3x+2, zero nothing
		6, 2, 0,
	}, out[7:])
}
