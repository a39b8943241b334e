package sitting_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/shot"
	"pivotbench/core/sitting"
	"pivotbench/core/unit"
)

// evening returns the strokes of a tester at a gate and by marks, with english to either
// side in turn, off several bridges and with the cue parallel.
func evening(t testing.TB, who sitting.Tester, strokes int, r *rand.Rand) (out []sitting.Stroke) {
	t.Helper()
	for i := range strokes {
		s := from(unit.Length(i%4)*6*unit.Inch, 0.4-0.8*float64(i%2))
		k, err := who.AtLine(s, sitting.Habit, mark(0), r)
		if i/4%2 == 1 {
			k, err = who.AtGate(s, sitting.Habit, r)
		}
		require.NoError(t, err)
		out = append(out, k)
	}
	return out
}

// exchanged returns strokes with left and right of some of them exchanged.
func exchanged(strokes []sitting.Stroke, which ...int) []sitting.Stroke {
	out := append([]sitting.Stroke(nil), strokes...)
	for _, i := range which {
		switch seen := out[i].Seen.(type) {
		case sitting.Mark:
			seen.At = -seen.At
			out[i].Seen = seen
		case sitting.Gate:
			out[i].Seen = sitting.Right - seen
		}
	}
	return out
}

// Strokes on the wrong side are named, be it one, some or half of them. With half of them
// on either side the answer is otherwise a very long pivot length and a wide scatter, into
// which each stroke fits well enough.
func TestStrokesOnTheWrongSide(t *testing.T) {
	t.Parallel()
	who := sitting.Tester{Pivot: 11 * unit.Inch, Scatter: 0.2 * unit.Degree, Aim: 0.1 * unit.Degree}
	r := rand.New(rand.NewPCG(11, 12))
	var parallel []sitting.Stroke
	for i := range 8 {
		k, err := who.AtLine(from(0, 0.4-0.8*float64(i%2)), sitting.Habit, mark(0), r)
		require.NoError(t, err)
		parallel = append(parallel, k)
	}
	for _, wrong := range [][]int{{5}, {0, 1}, {1, 2, 5}, {0, 1, 2, 3}, {0, 3, 4, 7}} {
		p := weigh(t, sitting.Habit, exchanged(parallel, wrong...)...)
		fit, which := p.Fit()
		assert.Equal(t, sitting.SomeSwapped, fit, "%v", wrong)
		assert.Equal(t, wrong, which)
		if len(wrong) == 4 {
			assert.Greater(t, p.Pivot(0).Median, float64(20*unit.Inch), "nothing else tells")
			assert.Less(t, p.Doubt(0), 0.5)
		}
	}

	// A parallel stroke hits the blocker on the side away from the english, or passes.
	var gates []sitting.Stroke
	for i := range 12 {
		gates = append(gates, sitting.Stroke{Shot: from(0, 0.4-0.8*float64(i%2)), Seen: sitting.Gate(i % 2 * 2)})
	}
	wrong := []int{2, 5, 9}
	fit, which := weigh(t, sitting.Habit, exchanged(gates, wrong...)...).Fit()
	assert.Equal(t, sitting.SomeSwapped, fit)
	assert.Equal(t, wrong, which)
}

// Marks of one shot that land in two places are named, those in the place with fewer. A
// mark by itself is only doubtful.
func TestMarksInTwoPlaces(t *testing.T) {
	t.Parallel()
	off := []unit.Length{1, -2, 30, 2, -1, 33, 0, 1.5, 29, -1.5, 31, -0.5}
	var shots, both []sitting.Stroke
	for i, mm := range off {
		s := from(11*unit.Inch, 0.4)
		off[i] = mm * unit.Millimetre
		shots = append(shots, marks(t, exact(11*unit.Inch), []shot.Shot{s}, off[i])...)
		s.Contact.Side = -0.4
		both = append(both, marks(t, exact(11*unit.Inch), []shot.Shot{s}, -off[i]/30)...)
	}
	fit, which := weigh(t, sitting.Habit, append(both, shots...)...).Fit()
	assert.Equal(t, sitting.TwoPlaces, fit)
	assert.Equal(t, []int{14, 17, 20, 22}, which)

	fit, which = weigh(t, sitting.Habit, append(both, shots[:5]...)...).Fit()
	assert.Equal(t, sitting.OneOff, fit)
	assert.Equal(t, []int{14}, which)
}

// Testers as the model has them raise no alarm about sides or places. What the model itself
// takes to be recorded wrongly may well be named. The bench has hundreds of testers.
func TestFalseAlarms(t *testing.T) {
	t.Parallel()
	for n := range 16 {
		r := rand.New(rand.NewPCG(uint64(n), 13))
		fit, _ := weigh(t, sitting.Habit, evening(t, sitting.Draw(r), 8, r)...).Fit()
		assert.NotContains(t, []sitting.Misfit{sitting.Swapped, sitting.SomeSwapped, sitting.TwoPlaces}, fit, n)
	}
}
