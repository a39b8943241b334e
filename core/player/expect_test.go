package player

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/sitting"
	"pivotbench/core/unit"
)

// Where the balls of a family are expected is where each would cross the line if it were
// played by itself, to a hundredth of how far the draws lie apart: the circle of the line's
// radius stands for the line.
func TestAFamilyGoesWhereItsStrokesGo(t *testing.T) {
	p, scene := New("Ann"), scenario.Default()
	on := scene.Shot()
	f, err := Start(&p, &on, nil, sitting.Habit)
	require.NoError(t, err)
	const line, speed, side = 48 * unit.Inch, 5 * unit.MilePerHour, 0.4
	way := f.family(line, speed, side)
	for _, share := range Shares {
		for _, side := range []float64{side, -side} {
			at := way.crosses(f.testers, line, side, share)
			_, variance := moments(at)
			for i, who := range f.testers {
				x, err := who.Play(f.Shot(line, speed, side, share), f.setUp, line)
				require.NoError(t, err)
				if math.Abs(at[i]) < 0.3 { // beyond it the circle is not the line
					assert.InDelta(t, float64(x), at[i], 0.01*math.Sqrt(variance)+0.002)
				}
			}
		}
	}
}
