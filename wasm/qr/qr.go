// Package qr encodes a text as a QR code: Model 2, versions 1 to 40, the four levels of
// error correction, the text in byte mode.
//
// It is written here because a phone has to download it: existing encoders bring images,
// files and formatting into the program. The tests compare it with two of them, module
// for module.
//
// Source: ISO/IEC 18004:2015, whose clauses the comments name. Clauses and the table of
// block sizes are from memory; the libraries confirm the table.
package qr

import "math"

// Level says how much of a code may be damaged while it can still be read, from the least
// to the most. It is one of the four below.
type Level int

// The levels correct about 7, 15, 25 and 30 % of the codewords (clause 7.5.1).
const (
	L Level = iota
	M
	Q
	H
)

// Code is a square of Size by Size modules, without the white border of four modules that
// it needs around it (clause 6.3).
type Code struct {
	Size int
	dark []bool // row by row
}

// Black reports whether a module is dark. x counts columns from the left and y rows from
// the top, both from 0. Everything outside the code is light.
func (c Code) Black(x, y int) bool {
	return x >= 0 && x < c.Size && y >= 0 && y < c.Size && c.dark[y*c.Size+x]
}

// Encode writes a text in the smallest code that holds its bytes, under the mask with the
// least penalty (clause 7.1). The error says how long the text is and how long it may be.
func Encode(text string, level Level) (Code, error) {
	v, err := smallest(len(text), level)
	if err != nil {
		return Code{}, err
	}
	var best Code
	least := math.MaxInt
	plain := unmasked(text, v, level)
	for mask := range masks {
		code := plain.masked(level, mask)
		if points := code.penalty(); points < least {
			best, least = code, points
		}
	}
	return best, nil
}

// unmasked returns a code with its text in place, before a mask is chosen.
func unmasked(text string, v version, level Level) matrix {
	m := functionPatterns(v)
	m.place(codewords(text, v, level))
	return m
}
