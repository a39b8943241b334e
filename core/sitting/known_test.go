package sitting_test

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/shot"
	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// A cue that was measured before starts at that measurement, and strokes add to it as one
// more measurement does: precisions add up.
func TestACueKnownBefore(t *testing.T) {
	s := setUp()
	known := stat.Estimate[unit.Length]{Median: 12 * unit.Inch, Interval: stat.Interval[unit.Length]{From: 10.8 * unit.Inch, To: 13.2 * unit.Inch}}
	p := sitting.Prior(sitting.Habit).WithCue(0, &s, known)
	e := p.Pivot(0)
	assert.InEpsilon(t, float64(known.Median), e.Median, 0.005)
	assert.InEpsilon(t, math.Log(13.2/10.8), width(e), 0.02)
	assert.Zero(t, p.Strokes(0))
	assert.Equal(t, s.Cue.PivotSpin, p.Reference(0))

	var shots []shot.Shot
	for i := range 8 {
		shots = append(shots, from(0, 0.4-0.8*float64(i%2)))
	}
	var strokes []sitting.Stroke
	for i, k := range marks(t, exact(12*unit.Inch), shots) {
		m := k.Seen.(sitting.Mark)
		m.At += 5 * unit.Millimetre * unit.Length(i/2%2*2-1)
		k.Seen = m
		strokes = append(strokes, k)
	}
	alone := weigh(t, sitting.SetUp{}, strokes...)
	both := sitting.Prior(sitting.SetUp{}).WithCue(0, &s, known)
	for _, k := range strokes {
		var err error
		both, err = both.Add(k)
		require.NoError(t, err)
	}
	precision := func(e stat.Summary[float64]) float64 { return 1 / width(e) / width(e) }
	assert.InEpsilon(t, precision(e)+precision(alone.Pivot(0)), precision(both.Pivot(0)), 0.1)
	fit, _ := both.Fit()
	assert.Equal(t, sitting.Fits, fit)

	far := sitting.Prior(sitting.Habit).WithCue(0, &s, stat.Estimate[unit.Length]{Median: 4 * unit.Metre, Interval: stat.Around(4*unit.Metre, 0.1*unit.Metre)})
	assert.InEpsilon(t, float64(sitting.PivotMost), far.Pivot(0).Median, 0.05, "moved to the end of the grid")
}

// Draws from a posterior have its moments.
func TestTestersAreThePosterior(t *testing.T) {
	u := sitting.Habit
	u.Front = 0.7
	var shots []shot.Shot
	for i := range 8 {
		s := from(9*unit.Inch, 0.4-0.8*float64(i%2))
		if i%4 > 1 {
			s.Hands.Back, s.Hands.Front = 0.5, 0.5
		}
		shots = append(shots, s)
	}
	p := weigh(t, u, marks(t, exact(10*unit.Inch), shots)...)
	var pivot, gain, scatter, aim float64
	const n = 512
	for _, who := range p.Testers(0, n) {
		pivot += math.Log(float64(who.Pivot)) / n
		gain += who.Front / n
		scatter += math.Log(float64(who.Scatter)) / n
		aim += float64(who.Aim) / n
	}
	assert.InDelta(t, math.Log(p.Pivot(0).Median), pivot, 0.05*width(p.Pivot(0)))
	assert.InDelta(t, math.Log(p.Gain().Median), gain, 0.05*width(p.Gain()))
	assert.InDelta(t, math.Log(p.Scatter().Median), scatter, 0.15*width(p.Scatter()))
	assert.InDelta(t, p.AimBias().Median, aim, 0.05*(p.AimBias().To-p.AimBias().From))
	assert.True(t, p.Gain().Holds(1), "an exact tester's hands do what they feel: %v", p.Gain())
}

// Before the first stroke the draws have the spread of the priors in every unknown.
func TestTestersBeforeTheFirstStroke(t *testing.T) {
	u := sitting.Habit
	u.Front = 0.7
	for _, n := range []int{128, 256, 512} {
		list := sitting.Prior(u).Testers(0, n)
		unknowns := map[string]func(sitting.Tester) float64{
			"aim":   func(who sitting.Tester) float64 { return float64(who.Aim / sitting.AimSpread) },
			"front": func(who sitting.Tester) float64 { return who.Front / u.Front },
			"scatter": func(who sitting.Tester) float64 {
				return uniform(float64(who.Scatter), float64(sitting.ScatterLeast), float64(sitting.ScatterMost))
			},
			"pivot": func(who sitting.Tester) float64 {
				return uniform(float64(who.Pivot), float64(sitting.PivotLeast), float64(sitting.PivotMost))
			},
		}
		for i := range list[0].Errors {
			unknowns["error "+strconv.Itoa(i)] = func(who sitting.Tester) float64 { return who.Errors[i] }
		}
		for name, of := range unknowns {
			sum, square := 0.0, 0.0
			for _, who := range list {
				sum, square = sum+of(who), square+of(who)*of(who)
			}
			mean := sum / float64(n)
			assert.InDelta(t, 0, mean, 0.2, "%s of %d", name, n)
			assert.InDelta(t, 1, math.Sqrt(square/float64(n)-mean*mean), 0.15, "%s of %d", name, n)
		}
	}
}

// uniform returns where a value lies in a log-uniform distribution, scaled to mean 0 and
// standard deviation 1.
func uniform(v, least, most float64) float64 {
	return (math.Log(v/least)/math.Log(most/least) - 0.5) * math.Sqrt(12)
}

// The front hand's gain is told from strokes at two shares, whatever the cue is; strokes
// with the back hand alone say nothing about it, and without a prior for it felt shares
// are the real ones.
func TestTheGainIsToldFromTwoShares(t *testing.T) {
	u := sitting.Habit
	u.Front = 0.7
	who := exact(11 * unit.Inch)
	who.Front = math.Log(1.8)
	var one, two []shot.Shot
	for i := range 8 {
		s := from(10*unit.Inch, 0.4-0.8*float64(i%2))
		one = append(one, s)
		if i%4 > 1 {
			s.Hands.Back, s.Hands.Front = 0.5, 0.5
		}
		two = append(two, s)
	}
	alone, both := weigh(t, u, marks(t, who, one)...), weigh(t, u, marks(t, who, two)...)
	assert.InDelta(t, 2*stat.Reach90*0.7, width(alone.Gain()), 0.1)
	assert.InEpsilon(t, 1.8, both.Gain().Median, 0.1)
	assert.Less(t, width(both.Gain()), 0.6)
	assert.True(t, both.Pivot(0).Holds(float64(11*unit.Inch)))

	none := weigh(t, sitting.Habit, marks(t, who, two)...)
	assert.Equal(t, stat.Interval[float64]{From: 1, To: 1}, none.Gain().Interval)
	assert.False(t, none.Pivot(0).Holds(float64(11*unit.Inch)), "the habit passes for squirt")
}

// It makes no difference whether a cue's earlier measurement is told before its strokes or
// after them.
func TestWhatWasKnownBeforeMayBeToldLater(t *testing.T) {
	t.Parallel()
	s := setUp()
	known := stat.NormalEstimate(11*unit.Inch, 0.5*unit.Inch)
	strokes := marks(t, exact(12*unit.Inch), []shot.Shot{from(0, 0.4), from(0, -0.4), from(9*unit.Inch, 0.4)})
	first, then := sitting.Prior(sitting.Habit).WithCue(0, &s, known), sitting.Prior(sitting.Habit)
	for _, k := range strokes {
		var err error
		first, err = first.Add(k)
		require.NoError(t, err)
		then, err = then.Add(k)
		require.NoError(t, err)
	}
	alone := then.Pivot(0)
	then = then.WithCue(0, &s, known)
	for i, share := range [][2]float64{{first.Pivot(0).Median, then.Pivot(0).Median}, {first.Pivot(0).From, then.Pivot(0).From}, {first.Pivot(0).To, then.Pivot(0).To}} {
		assert.InEpsilon(t, share[0], share[1], 0.01, i)
	}
	assert.Less(t, then.Pivot(0).To-then.Pivot(0).From, alone.To-alone.From)
}
