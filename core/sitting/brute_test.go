package sitting_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// Sittings weighed by brute force, to 2 % of the interval's width: every unknown
// drawn millions of times, and the ball's path worked out apart from this code. Made
// by testdata/trial/brute.py with NumPy. Where strokes contradict each other the
// answer has two places and next to nothing between them; a quantile that falls
// there may be as far off as holds 0.68 % of the answer, which is what 2 % of the
// width holds at the end of a Normal distribution.
func TestAgainstBruteForce(t *testing.T) {
	t.Parallel()
	type stroke struct {
		Bridge, Side, Speed, Line float64
		Hands, Seen               string
		Read, At                  float64
	}
	var data struct {
		Cases []struct {
			Strokes             []stroke
			Pivot, Scatter, Aim [5][3]float64
		}
	}
	text, err := os.ReadFile("../../testdata/trial/brute.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &data))
	require.Len(t, data.Cases, 30)
	for i, c := range data.Cases {
		p := sitting.Prior(sitting.Habit)
		for _, k := range c.Strokes {
			s := setUp()
			s.Hands.Bridge, s.Contact.Side = unit.Length(k.Bridge)*unit.Inch, k.Side
			s.Speed, s.Gate.Dist = unit.Speed(k.Speed)*unit.MilePerHour, unit.Length(k.Line)*unit.Inch
			if k.Hands == "parallel" {
				s.Hands.Back = 0
			}
			seen := map[string]sitting.Sight{"left": sitting.Left, "clean": sitting.Clean, "right": sitting.Right}[k.Seen]
			if k.Seen == "mark" {
				seen = sitting.Mark{
					At: unit.Length(k.At) * unit.Inch, Line: s.Gate.Dist,
					Read: unit.Length(k.Read) * unit.Millimetre, Across: 50 * unit.Inch,
				}
			}
			p, err = p.Add(sitting.Stroke{Shot: s, Seen: seen})
			require.NoError(t, err)
		}
		near := func(name string, is stat.Summary[float64], want [5][3]float64, scale float64, on func(float64) float64) {
			near := 0.02 * (on(want[4][1]) - on(want[0][1]))
			for j, got := range []float64{is.From, is.Half.From, is.Median, is.Half.To, is.To} {
				from, at, to := on(want[j][0]), on(want[j][1]), on(want[j][2])
				allowed := stat.Between(min(from, at-near), max(to, at+near))
				assert.True(t, allowed.Holds(on(got/scale)), "sitting %d, %s: %v, want %v", i, name, got/scale, want[j][1])
			}
		}
		near("pivot", p.Pivot(0), c.Pivot, float64(unit.Inch), math.Log)
		near("scatter", p.Scatter(), c.Scatter, float64(unit.Degree), math.Log)
		near("aim", p.AimBias(), c.Aim, float64(unit.Degree), func(x float64) float64 { return x })
	}
}
