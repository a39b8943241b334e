package qr

import "math/bits"

// protected returns a value followed by the remainder of its polynomial division over
// GF(2) by a generator: a BCH or Golay code (annexes C and D).
func protected(value, generator uint) uint {
	degree := bits.Len(generator) - 1
	rest := value << degree
	for bits.Len(rest) > degree {
		rest ^= generator << (bits.Len(rest) - 1 - degree)
	}
	return value<<degree | rest
}

// format returns the 15 bits of level and mask (clause 7.9.1). They are combined with a
// fixed pattern, so that they are never all light.
func format(level Level, mask int) uint {
	indicator := [4]uint{L: 0b01, M: 0b00, Q: 0b11, H: 0b10}[level]
	return protected(indicator<<3|uint(mask), 0b10100110111) ^ 0b101010000010010
}

// writeFormat writes the format twice, around the upper left finder pattern and beside
// the two others, and the module that is always dark (figure 25).
func (m matrix) writeFormat(format uint) {
	for i := range 15 {
		dark := format>>i&1 == 1
		across, down := m.Size-1-i, i // bits 0 to 7, from the right and from the top
		if i >= 6 {
			down++ // skips the timing pattern
		}
		if i >= 8 { // bits 8 to 14, on the left and at the bottom
			across = 14 - i
			if i == 8 {
				across++
			}
			down = m.Size - 15 + i
		}
		m.set(across, 8, dark)
		m.set(8, down, dark)
	}
	m.set(8, m.Size-8, true)
}

// writeVersion writes the 18 bits of the version beside two of the finder patterns, six
// by three (clause 7.10).
func (m matrix) writeVersion(v version) {
	info := protected(uint(v), 0b1111100100101)
	for i := range 18 {
		dark := info>>i&1 == 1
		along, out := i/3, m.Size-11+i%3
		m.set(along, out, dark)
		m.set(out, along, dark)
	}
}
