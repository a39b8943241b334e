package sitting_test

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

const across = 50 * unit.Inch

// marked returns a stroke of a sitting with a mark.
func marked(which int, side, back, speed float64, line, at unit.Length) sitting.Stroke {
	s := setUp()
	s.Contact.Side, s.Hands.Back = side, back
	s.Speed = unit.Speed(speed) * unit.MilePerHour
	return sitting.Stroke{Shot: s, Sitting: which, Seen: sitting.Mark{At: at, Line: line, Read: sitting.ByEye, Across: across}}
}

// Strokes of two sittings are weighed as by brute force: every unknown is drawn from its
// prior 150,000 times, with half the variance of each set-up error shared by the two, and
// weighed with Gonum's Normal distribution. So few draws tell a quantile to some hundredths
// of the distribution; as strokes of one sitting these would be wrong by eight tenths. The
// order of the strokes does not matter.
func TestTwoSittingsAgainstBruteForce(t *testing.T) {
	t.Parallel()
	strokes := []sitting.Stroke{
		marked(0, 0.5, 0, 4, 48*unit.Inch, -0.7*unit.Inch),
		marked(1, 0.5, 0, 4, 48*unit.Inch, 0.1*unit.Inch),
		marked(0, -0.5, 0, 4, 48*unit.Inch, 0.7*unit.Inch),
		marked(1, -0.5, 0, 4, 48*unit.Inch, -0.1*unit.Inch),
	}
	u := sitting.Habit
	u.Elevation, u.Offset = 2.5*unit.Degree, 0.05
	type drawn struct{ pivot, scatter, aim, weight float64 }
	r := rand.New(rand.NewPCG(20, 2))
	all := make([]drawn, 150_000)
	total := 0.0
	for i := range all {
		who := sitting.Draw(r)
		var errors [2][len(who.Errors)]float64
		for e := range who.Errors {
			same := r.NormFloat64()
			for s := range errors {
				errors[s][e] = math.Sqrt(0.5)*same + math.Sqrt(0.5)*r.NormFloat64()
			}
		}
		weight := 1.0
		for _, k := range strokes {
			who.Errors = errors[k.Sitting]
			m := k.Seen.(sitting.Mark)
			x, err := who.Play(k.Shot, u, m.Line)
			is := 0.02 / float64(m.Across)
			if err == nil {
				sd := math.Hypot(float64(m.Line)*float64(who.Scatter), float64(m.Read))
				is += 0.98 * distuv.Normal{Mu: float64(x), Sigma: sd}.Prob(float64(m.At))
			}
			weight *= is
		}
		all[i] = drawn{float64(who.Pivot), float64(who.Scatter), float64(who.Aim), weight}
		total += weight
	}

	forth, errs := sitting.Of(u, strokes)
	require.Nil(t, errs)
	slices.Reverse(strokes)
	back, errs := sitting.Of(u, strokes)
	require.Nil(t, errs)
	for name, p := range map[string]*sitting.Posterior{"forth": forth, "back": back} {
		for what, one := range map[string]struct {
			is [5]float64
			of func(drawn) float64
		}{
			"pivot":   {five(p.Pivot(0)), func(d drawn) float64 { return d.pivot }},
			"scatter": {five(p.Scatter()), func(d drawn) float64 { return d.scatter }},
			"aim":     {five(p.AimBias()), func(d drawn) float64 { return d.aim }},
		} {
			slices.SortFunc(all, func(a, b drawn) int { return cmp.Compare(one.of(a), one.of(b)) })
			for i, share := range []float64{0.05, 0.25, 0.5, 0.75, 0.95} {
				below := 0.0
				for _, d := range all {
					if one.of(d) < one.is[i] {
						below += d.weight / total
					}
				}
				assert.InDelta(t, share, below, 0.1, "%s %s", name, what)
			}
		}
	}
}

// five returns the quantiles of a summary.
func five(s stat.Summary[float64]) [5]float64 {
	return [5]float64{s.From, s.Half.From, s.Median, s.Half.To, s.To}
}

// Draws from the posterior have the set-up errors as they were on the average of all
// strokes: one that a long sitting shows clearly counts for more than that of a short one.
func TestTestersOfTwoSittings(t *testing.T) {
	t.Parallel()
	who := sitting.Tester{Pivot: 12 * unit.Inch, Scatter: 0.05 * unit.Degree}
	u := sitting.Habit
	u.Slide, u.Speed, u.Bridge, u.Offset = 0, 0, 0, 0
	p := sitting.Prior(u)
	r := rand.New(rand.NewPCG(4, 4))
	for i := range 16 {
		which := i / 12
		who.Errors[sitting.ElevationError] = 2 - 4*float64(which)
		k := marked(which, 0.5-float64(i%2), 0, 4, 60*unit.Inch, 0)
		k.Shot.Hands.Front = 0
		played, err := who.AtLine(k.Shot, u, k.Seen.(sitting.Mark), r)
		require.NoError(t, err)
		played.Sitting = which
		p, err = p.Add(played)
		require.NoError(t, err)
	}
	mean := 0.0
	for _, one := range p.Testers(0, 200) {
		mean += one.Errors[sitting.ElevationError] / 200
	}
	assert.InDelta(t, (12*2-4*2)/16., mean, 0.6)
}
