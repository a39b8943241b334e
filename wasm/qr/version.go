package qr

import (
	"errors"
	"strconv"
)

// version is the size of a code by its number, 1 to 40 (clause 6.3).
type version int

const largest version = 40

// size returns the number of modules along a side.
func (v version) size() int { return 17 + 4*int(v) }

// alignment returns the columns, which are also the rows, of the centres of the alignment
// patterns: from the timing pattern to the far side in equal even steps, except for the
// first, which takes the rest. The rounding of the step yields the positions of annex E.
func (v version) alignment() []int {
	if v == 1 {
		return nil
	}
	const first = 6
	last := v.size() - 7
	gaps := int(v)/7 + 1
	step := (2*(last-first) + 3*gaps) / (4 * gaps) * 2
	centres := []int{first}
	for n := gaps - 1; n >= 0; n-- {
		centres = append(centres, last-n*step)
	}
	return centres
}

// codewords returns how many codewords fit between the function patterns, data and error
// correction together. Up to seven modules remain (clause 6.3, table 1).
func (v version) codewords() int {
	const (
		finders  = 3 * 8 * 8 // with their separators
		format   = 2*15 + 1  // with the dark module
		versions = 2 * 18
	)
	size := v.size()
	modules := size*size - finders - format - 2*(size-16)
	if n := len(v.alignment()); n > 0 {
		modules -= 25*(n*n-3) - 2*5*(n-2) // some overlap the timing patterns
	}
	if v >= 7 {
		modules -= versions
	}
	return modules / 8
}

// checks is the number of error correction codewords in a block, and blocks the number of
// blocks, by level and version (clause 7.5.1, table 9).
var (
	checks = [4][largest]byte{
		L: {7, 10, 15, 20, 26, 18, 20, 24, 30, 18, 20, 24, 26, 30, 22, 24, 28, 30, 28, 28,
			28, 28, 30, 30, 26, 28, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30},
		M: {10, 16, 26, 18, 24, 16, 18, 22, 22, 26, 30, 22, 22, 24, 24, 28, 28, 26, 26, 26,
			26, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28},
		Q: {13, 22, 18, 26, 18, 24, 18, 22, 20, 24, 28, 26, 24, 20, 30, 24, 28, 28, 26, 30,
			28, 30, 30, 30, 30, 28, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30},
		H: {17, 28, 22, 16, 22, 28, 26, 26, 24, 28, 24, 28, 22, 24, 24, 30, 28, 28, 26, 28,
			30, 24, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30},
	}
	blocks = [4][largest]byte{
		L: {1, 1, 1, 1, 1, 2, 2, 2, 2, 4, 4, 4, 4, 4, 6, 6, 6, 6, 7, 8,
			8, 9, 9, 10, 12, 12, 12, 13, 14, 15, 16, 17, 18, 19, 19, 20, 21, 22, 24, 25},
		M: {1, 1, 1, 2, 2, 4, 4, 4, 5, 5, 5, 8, 9, 9, 10, 10, 11, 13, 14, 16,
			17, 17, 18, 20, 21, 23, 25, 26, 28, 29, 31, 33, 35, 37, 38, 40, 43, 45, 47, 49},
		Q: {1, 1, 2, 2, 4, 4, 6, 6, 8, 8, 8, 10, 12, 16, 12, 17, 16, 18, 21, 20,
			23, 23, 25, 27, 29, 34, 34, 35, 38, 40, 43, 45, 48, 51, 53, 56, 59, 62, 65, 68},
		H: {1, 1, 2, 4, 4, 4, 5, 6, 8, 8, 11, 11, 16, 16, 18, 16, 19, 21, 25, 25,
			25, 34, 30, 32, 35, 37, 40, 42, 45, 48, 51, 54, 57, 60, 63, 66, 70, 74, 77, 81},
	}
)

// data returns the number of codewords that hold data.
func (v version) data(level Level) int {
	return v.codewords() - int(checks[level][v-1])*int(blocks[level][v-1])
}

// counter returns the number of bytes of the length field (clause 7.4.1, table 3).
func (v version) counter() int {
	if v < 10 {
		return 1
	}
	return 2
}

// capacity returns the longest text in bytes. Mode and terminator, of four bits each,
// take one byte together (table 7).
func (v version) capacity(level Level) int { return v.data(level) - v.counter() - 1 }

// smallest returns the smallest version that holds so many bytes.
func smallest(bytes int, level Level) (version, error) {
	for v := version(1); v <= largest; v++ {
		if bytes <= v.capacity(level) {
			return v, nil
		}
	}
	return 0, errors.New(strconv.Itoa(bytes) + " bytes of text; a QR code of level " + "LMQH"[level:level+1] +
		" holds at most " + strconv.Itoa(largest.capacity(level)))
}

// Size returns the number of modules along a side of the code that Encode makes of so
// many bytes, and the same error.
func Size(bytes int, level Level) (int, error) {
	v, err := smallest(bytes, level)
	if err != nil {
		return 0, err
	}
	return v.size(), nil
}
