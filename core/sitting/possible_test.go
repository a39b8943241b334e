package sitting_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/sitting"
	"pivotbench/core/unit"
)

// A stroke is possible when a sitting takes it, and is refused for the same
// reason.
func TestPossible(t *testing.T) {
	prior := sitting.Prior(sitting.Habit)
	var strokes []sitting.Stroke
	for _, speed := range []unit.Speed{0.05, 0.35, 5} { // m/s: too slow, far enough for a near line, and for any
		for _, side := range []float64{-0.4, 0.4, 1.2} {
			s := from(12*unit.Inch, side)
			s.Speed, s.Gate.Dist = speed, 80*unit.Inch
			near := mark(unit.Inch)
			near.Line = 10 * unit.Inch
			strokes = append(strokes, sitting.Stroke{Shot: s, Seen: near}, sitting.Stroke{Shot: s, Seen: sitting.Left})
		}
	}
	s := from(60*unit.Inch, 0.4)
	strokes = append(strokes, sitting.Stroke{Shot: s, Seen: sitting.Clean}, sitting.Stroke{Shot: setUp(), Seen: sitting.Gate(7)},
		sitting.Stroke{Shot: setUp(), Seen: mark(51 * unit.Inch)}, sitting.Stroke{Shot: setUp(), Seen: sitting.Mark{At: 0, Line: line, Across: 1}})
	taken := 0
	for i, k := range strokes {
		_, err := prior.Add(k)
		assert.Equal(t, err, k.Possible(), "stroke %d", i)
		if err == nil {
			taken++
		}
	}
	assert.Equal(t, 6, taken)
}
