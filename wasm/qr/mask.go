package qr

import "slices"

// masks are the mask patterns by number: each says whether the module in row i and column
// j is inverted (clause 7.8.2, table 10).
var masks = [...]func(i, j int) bool{
	func(i, j int) bool { return (i+j)%2 == 0 },
	func(i, _ int) bool { return i%2 == 0 },
	func(_, j int) bool { return j%3 == 0 },
	func(i, j int) bool { return (i+j)%3 == 0 },
	func(i, j int) bool { return (i/2+j/3)%2 == 0 },
	func(i, j int) bool { return i*j%2+i*j%3 == 0 },
	func(i, j int) bool { return (i*j%2+i*j%3)%2 == 0 },
	func(i, j int) bool { return ((i+j)%2+i*j%3)%2 == 0 },
}

// masked returns the code under a mask, with its format.
func (m matrix) masked(level Level, mask int) Code {
	m.dark = slices.Clone(m.dark)
	turned := masks[mask]
	for y := range m.Size {
		row := m.row(y)
		for x, fixed := range m.fixed[y*m.Size : (y+1)*m.Size] {
			if !fixed && turned(y, x) {
				row[x] = !row[x]
			}
		}
	}
	m.writeFormat(format(level, mask))
	return m.Code
}
