package qr

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"rsc.io/qr/coding"
)

func TestMultiplyAgainstALibrary(t *testing.T) {
	for a := range 256 {
		for b := range 256 {
			assert.Equal(t, coding.Field.Mul(byte(a), byte(b)), multiply(byte(a), byte(b)))
		}
	}
}

func TestPowersOfTwoGoThroughTheField(t *testing.T) {
	seen := map[byte]bool{}
	power := byte(1)
	for range 255 {
		seen[power] = true
		power = multiply(power, 2)
	}
	assert.Len(t, seen, 255)
	assert.NotContains(t, seen, byte(0))
	assert.EqualValues(t, 1, power)
}

// Annex A of the standard, from memory: the exponents of the coefficients of
// the polynomials of degrees 7 and 10.
func TestGenerator(t *testing.T) {
	for _, exponents := range [][]int{
		{0, 87, 229, 146, 149, 238, 102, 21},
		{0, 251, 67, 46, 61, 118, 70, 64, 94, 32, 45},
	} {
		want := make([]byte, len(exponents))
		for i, e := range exponents {
			want[i] = coding.Field.Exp(e)
		}
		assert.Equal(t, want, generator(len(exponents)-1))
	}
}

// Worked examples, from memory: the first from annex I of the standard,
// 01234567 in version 1-M, and HELLO WORLD in 1-M as tutorials have it.
func TestCheckwords(t *testing.T) {
	for _, c := range []struct{ data, want []byte }{
		{
			[]byte{0x10, 0x20, 0x0c, 0x56, 0x61, 0x80, 0xec, 0x11, 0xec, 0x11, 0xec, 0x11, 0xec, 0x11, 0xec, 0x11},
			[]byte{0xa5, 0x24, 0xd4, 0xc1, 0xed, 0x36, 0xc7, 0x87, 0x2c, 0x55},
		},
		{
			[]byte{32, 91, 11, 120, 209, 114, 220, 77, 67, 64, 236, 17, 236, 17, 236, 17},
			[]byte{196, 35, 39, 119, 235, 215, 231, 226, 93, 23},
		},
	} {
		assert.Equal(t, c.want, checkwords(c.data, generator(len(c.want))))
	}
}
