package qr

import (
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing/qrcode/encoder"
	"github.com/stretchr/testify/assert"
)

// modules reads # as a dark and any other character as a light module.
func modules(text string) []bool {
	var out []bool
	for _, r := range text {
		out = append(out, r == '#')
	}
	return out
}

// The four rules by hand, from table 11 of the standard.

func TestRuns(t *testing.T) {
	for line, want := range map[string]int{
		"####.####..##": 0,
		"#####":         3,
		".....":         3,
		"######":        4,
		"#.......":      5,
		"#####.....":    6,
		"##.######.#":   4,
		".####.....#":   3,
		"##########":    8,
	} {
		assert.Equal(t, want, runs(modules(line)), line)
	}
}

func TestSquares(t *testing.T) {
	for _, c := range []struct {
		above, below string
		want         int
	}{
		{"##", "##", 3},
		{"..", "..", 3},
		{"##", "..", 0},
		{"#.", "#.", 0},
		{"##", "#.", 0},
		{"###", "###", 6}, // two overlapping squares
		{"##..", "##..", 6},
		{"#.##.", ".###.", 3},
		{".", ".", 0},
	} {
		assert.Equal(t, c.want, squares(modules(c.above), modules(c.below)), c)
	}
}

func TestFinders(t *testing.T) {
	for line, want := range map[string]int{
		"#.###.#########":     40, // the border lies before it
		"#########.###.#":     40, // the border lies after it
		"####....#.###.#.###": 40,
		"##.#.###.#....#":     40,
		"#....#.###.#....#":   40, // light on both sides counts once
		"#...#.###.##":        0,  // three are too few, and before that it is another pattern
		"##...#.###.#...##":   0,
		".#.###.#.##":         40, // the border makes it four
		"#.###.###.###.#":     80,
		"#....##..######..##": 0, // twice the width
		"###....#.##.#....##": 0,
	} {
		assert.Equal(t, want, finders(modules(line)), line)
	}
}

func TestImbalance(t *testing.T) {
	for dark, want := range map[int]int{0: 100, 1: 90, 8: 20, 9: 10, 10: 0, 11: 10, 13: 30, 20: 100} {
		line := strings.Repeat("#", dark) + strings.Repeat(".", 20-dark)
		assert.Equal(t, want, imbalance(modules(line)), "%d of 20", dark)
	}
	assert.Equal(t, 0, imbalance(modules("#####......")), "45.5 %")
}

// drawn reads a square whose rows are separated by spaces.
func drawn(text string) Code {
	return Code{len(strings.Fields(text)), modules(strings.ReplaceAll(text, " ", ""))}
}

func TestPenalty(t *testing.T) {
	for text, want := range map[string]int{
		"#.#.#.# .#.#.#. #.#.#.# .#.#.#. #.#.#.# .#.#.#. #.#.#.#": 0, // 25 of 49 are dark
		"..... ..... ..... ..... .....":                           10*3 + 16*3 + 100,
		"##### .#.#. #.#.# .#.#. #.#.#":                           3 + 20, // 15 of 25
		"##.#. #.#.# ##.#. #.#.# ##.#.":                           3 + 20, // 15 of 25
	} {
		assert.Equal(t, want, drawn(text).penalty(), text)
	}
}

// gozxing's rules, on codes under every mask.
func TestPenaltiesAgainstALibrary(t *testing.T) {
	for v := version(1); v <= largest; v++ {
		level := Level(v % 4)
		m := unmasked(filler(v.capacity(level)/2), v, level)
		for mask := range masks {
			code := m.masked(level, mask)
			grid := encoder.NewByteMatrix(code.Size, code.Size)
			for y := range code.Size {
				for x := range code.Size {
					grid.SetBool(x, y, code.Black(x, y))
				}
			}
			want := encoder.MaskUtil_applyMaskPenaltyRule1(grid) + encoder.MaskUtil_applyMaskPenaltyRule2(grid) +
				encoder.MaskUtil_applyMaskPenaltyRule3(grid) + encoder.MaskUtil_applyMaskPenaltyRule4(grid)
			assert.Equal(t, want, code.penalty(), "version %d, level %v, mask %d", v, level, mask)
		}
	}
}
