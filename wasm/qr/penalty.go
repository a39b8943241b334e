package qr

// penalty returns how unsuitable a code is for a reader, in points: the sum of four rules
// over the whole code (clause 7.8.3.1, table 11). For speed, since the page waits, each
// rule passes over the modules with a window of bits, set for dark ones.
func (c Code) penalty() int {
	points := imbalance(c.dark)
	column := make([]bool, c.Size)
	for n := range c.Size {
		row := c.row(n)
		points += runs(row) + finders(row)
		if n > 0 {
			points += squares(c.row(n-1), row)
		}
		for y := range column {
			column[y] = c.dark[y*c.Size+n]
		}
		points += runs(column) + finders(column)
	}
	return points
}

func (c Code) row(y int) []bool { return c.dark[y*c.Size : (y+1)*c.Size] }

func bit(dark bool) uint {
	if dark {
		return 1
	}
	return 0
}

// runs gives 3 points for five modules of one colour in a line, and 1 for each further
// one.
func runs(line []bool) int {
	points := 0
	window := ^bit(line[0]) // as if the other colour came before
	for _, dark := range line {
		window = window<<1 | bit(dark)
		if five := window & 0b11111; five == 0 || five == 0b11111 {
			points++
			if six := window & 0b111111; six != 0 && six != 0b111111 {
				points += 2
			}
		}
	}
	return points
}

// squares gives 3 points for each two by two modules of one colour in two adjacent rows;
// overlapping squares count separately.
func squares(above, below []bool) int {
	points := 0
	window := uint(0b01) // as if two different ones came before
	for x, dark := range above {
		window = window<<2 | bit(dark)<<1 | bit(below[x])
		if four := window & 0b1111; four == 0 || four == 0b1111 {
			points += 3
		}
	}
	return points
}

// finders gives 40 points for what could be mistaken for a finder pattern: in a line
// dark, light, three dark, light, dark, with four light modules before or after, some of
// which may belong to the border.
func finders(line []bool) int {
	points := 0
	window := uint(0)
	for i := range len(line) + 4 {
		window <<= 1
		if i < len(line) {
			window |= bit(line[i])
		}
		before, pattern, after := window>>11&0b1111, window>>4&0b1111111, window&0b1111
		if pattern == 0b1011101 && (before == 0 || after == 0) {
			points += 40
		}
	}
	return points
}

// imbalance gives 10 points for each whole 5 % by which the share of dark modules differs
// from one half.
func imbalance(modules []bool) int {
	dark := 0
	for _, d := range modules {
		dark += int(bit(d))
	}
	off := 2*dark - len(modules) // of twice as many modules
	return max(off, -off) * 10 / len(modules) * 10
}
