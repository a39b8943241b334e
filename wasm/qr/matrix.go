package qr

// matrix is a code under construction.
type matrix struct {
	Code
	fixed []bool // modules that do not belong to the text and that no mask inverts
}

// set fixes a module.
func (m matrix) set(x, y int, dark bool) {
	m.dark[y*m.Size+x], m.fixed[y*m.Size+x] = dark, true
}

// functionPatterns returns a code without its text (clause 6.3). The modules of the
// format are reserved but not yet set.
func functionPatterns(v version) matrix {
	size := v.size()
	m := matrix{Code{size, make([]bool, size*size)}, make([]bool, size*size)}
	for i := range size { // timing patterns
		m.set(i, 6, i%2 == 0)
		m.set(6, i, i%2 == 0)
	}
	far := size - 4
	m.rings(3, 3, 4, 0b01011) // finder patterns with their separators
	m.rings(far, 3, 4, 0b01011)
	m.rings(3, far, 4, 0b01011)
	centres := v.alignment()
	for i, x := range centres {
		for j, y := range centres {
			last := len(centres) - 1
			if i == 0 && j == 0 || i == 0 && j == last || i == last && j == 0 {
				continue // a finder pattern is there
			}
			m.rings(x, y, 2, 0b101)
		}
	}
	m.writeFormat(0)
	if v >= 7 {
		m.writeVersion(v)
	}
	return m
}

// rings draws concentric squares around a centre, up to a distance and within the code.
// dark has one bit for each distance, the lowest for the centre.
func (m matrix) rings(x, y, out int, dark uint) {
	for dy := -out; dy <= out; dy++ {
		for dx := -out; dx <= out; dx++ {
			if x+dx >= 0 && x+dx < m.Size && y+dy >= 0 && y+dy < m.Size {
				m.set(x+dx, y+dy, dark>>max(dx, -dx, dy, -dy)&1 == 1)
			}
		}
	}
}

// place lays out codewords, the highest bit of each first, in columns two modules wide
// from right to left, alternately upwards and downwards, around whatever is fixed (clause
// 7.7.3). Remaining modules stay light.
func (m matrix) place(codewords []byte) {
	bit, upwards := 0, true
	for right := m.Size - 1; right > 0; right -= 2 {
		if right == 6 { // skips the timing pattern's column
			right--
		}
		for row := range m.Size {
			y := row
			if upwards {
				y = m.Size - 1 - row
			}
			for _, x := range []int{right, right - 1} {
				if at := y*m.Size + x; !m.fixed[at] && bit < 8*len(codewords) {
					m.dark[at] = codewords[bit/8]<<(bit%8)&0x80 != 0
					bit++
				}
			}
		}
		upwards = !upwards
	}
}
