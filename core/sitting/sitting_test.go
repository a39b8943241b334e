package sitting_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/cues"
	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/sitting"
	"pivotbench/core/stance"
	"pivotbench/core/stat"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

const line = 30 * unit.Inch

// setUp is a set-up that can tell: a nearly level cue and a firm stroke.
func setUp() shot.Shot {
	return shot.Shot{
		Ball: gear.Ball{Radius: 1.125 * unit.Inch, Mass: 170 * unit.Gram},
		Cue: gear.Cue{
			Mass:  540 * unit.Gram,
			Tip:   gear.Tip{Dome: 10.6 * unit.Millimetre, Width: 13 * unit.Millimetre, Restitution: 0.75, Friction: 0.6},
			Pivot: 12 * unit.Inch, PivotSpin: 0.5,
		},
		Cloth:     gear.Cloth{Slide: 0.2, Roll: 0.01, SpinDecay: 10, Rebound: 0.5},
		Contact:   strike.Contact{Side: 0.4},
		Elevation: 3 * unit.Degree,
		Hands:     stance.Hands{Bridge: 12 * unit.Inch, Grip: 30 * unit.Inch, Back: 1},
		Speed:     12 * unit.MilePerHour,
		Gate:      gear.Gate{Dist: line, Gap: 2.75 * unit.Inch},
	}
}

// from is a stroke off a bridge, with english to a side; parallel when the
// bridge is 0.
func from(bridge unit.Length, side float64) shot.Shot {
	s := setUp()
	s.Contact.Side = side
	if bridge == 0 {
		s.Hands.Back = 0
	} else {
		s.Hands.Bridge = bridge
	}
	return s
}

// mark is a mark by eye.
func mark(at unit.Length) sitting.Mark {
	return sitting.Mark{At: at, Line: line, Read: sitting.ByEye, Across: 50 * unit.Inch}
}

// exact is a tester without any error or scatter.
func exact(pivot unit.Length) sitting.Tester { return sitting.Tester{Pivot: pivot} }

// marks are what an exact tester with a bias sees, given how far off each is.
func marks(t testing.TB, who sitting.Tester, shots []shot.Shot, off ...unit.Length) []sitting.Stroke {
	t.Helper()
	var out []sitting.Stroke
	for i, s := range shots {
		x, err := who.Play(s, sitting.SetUp{}, line)
		require.NoError(t, err)
		if i < len(off) {
			x += off[i]
		}
		out = append(out, sitting.Stroke{Shot: s, Seen: mark(x)})
	}
	return out
}

func weigh(t testing.TB, u sitting.SetUp, strokes ...sitting.Stroke) *sitting.Posterior {
	t.Helper()
	p, errs := sitting.Of(u, strokes)
	require.Nil(t, errs)
	return p
}

// width is that of a 90 % interval of a pivot length, as a share.
func width(e stat.Summary[float64]) float64 { return math.Log(e.To / e.From) }

// Without errors of the set-up, parallel marks with english to either side are
// two samples of which the half difference is squirt: Student's interval for it
// (Welch, Biometrika 34 (1947) 28, with equal spreads) is the limit.
func TestStudentIsTheLimitOfParallelMarks(t *testing.T) {
	who := exact(13 * unit.Inch)
	off := []float64{1.9, -2.4, 0.6, 3.1, -3.3, -0.5, 2.2, -1.4, -0.9, 0.7, 1.1, -1.1, 2.6, -2.9, 0.4, -0.2}
	var shots []shot.Shot
	var by []unit.Length
	var sides [2][]float64
	for i, v := range off {
		side := 0.4
		if i%2 == 1 {
			side = -0.4
		}
		shots = append(shots, from(0, side))
		by = append(by, unit.Length(v)*unit.Millimetre)
	}
	strokes := marks(t, who, shots, by...)
	for i, k := range strokes {
		m := k.Seen.(sitting.Mark)
		m.Read = 0.01 * unit.Millimetre // all of the scatter is the player's
		strokes[i].Seen = m
		sides[i%2] = append(sides[i%2], float64(m.At))
	}
	p := weigh(t, sitting.SetUp{}, strokes...)

	right, rightSq := stat.Spread(sides[0])
	left, leftSq := stat.Spread(sides[1])
	n := float64(len(off)) / 2
	freedom := 2 * (n - 1)
	half := (left - right) / 2
	reach := stat.StudentQuantile(freedom, 0.95) * math.Sqrt((rightSq+leftSq)/freedom*2/n) / 2
	// From where the ball comes to the line back to a pivot length, by halves.
	pivot := func(offset float64) float64 {
		lo, hi := 4*unit.Inch, 80*unit.Inch
		for range 60 {
			mid := (lo + hi) / 2
			x, err := exact(mid).Play(from(0, -0.4), sitting.SetUp{}, line)
			require.NoError(t, err)
			if float64(x) > offset {
				lo = mid
			} else {
				hi = mid
			}
		}
		return float64(lo)
	}
	e := p.Pivot(0)
	want := stat.Interval[float64]{From: pivot(half + reach), To: pivot(half - reach)}
	span := want.To - want.From
	assert.InDelta(t, pivot(half), e.Median, 0.04*span)
	assert.InDelta(t, want.From, e.From, 0.06*span)
	assert.InDelta(t, want.To, e.To, 0.06*span)
}

// What each error of the set-up does to which stroke, from the physics: near the
// natural pivot length turning about the bridge makes up for an offset that is
// off, parallel english does not; a parallel stroke does not feel the bridge;
// elevation and cloth act through swerve, which a fast stroke leaves little of.
func TestWhichStrokesFeelWhichErrors(t *testing.T) {
	feels := func(s shot.Shot, which int) float64 {
		var z, none [5]float64
		z[which] = 1
		a, err := sitting.Tester{Pivot: 13 * unit.Inch, Errors: z}.Play(s, sitting.Habit, line)
		require.NoError(t, err)
		b, err := sitting.Tester{Pivot: 13 * unit.Inch, Errors: none}.Play(s, sitting.Habit, line)
		require.NoError(t, err)
		return math.Abs(float64(a-b)) / float64(unit.Millimetre)
	}
	const elevation, bridge, offset, speed, slide = 0, 1, 2, 3, 4
	level := func(s shot.Shot) shot.Shot { s.Elevation = 0; return s }
	assert.Less(t, feels(level(from(13*unit.Inch, 0.4)), offset), 0.25)
	assert.Greater(t, feels(level(from(0, 0.4)), offset), 1.0)
	assert.Zero(t, feels(from(0, 0.4), bridge))
	assert.Greater(t, feels(from(8*unit.Inch, 0.4), bridge), 0.5)
	slow := from(13*unit.Inch, 0.4)
	slow.Speed = 5 * unit.MilePerHour
	for _, error := range []int{elevation, speed, slide} {
		assert.Greater(t, feels(slow, error), 3*feels(from(13*unit.Inch, 0.4), error), "%d", error)
	}
	assert.Less(t, feels(level(slow), elevation), feels(slow, elevation)) // one degree up or down from level swerves less than from 3°
}

// An aim bias moves both sides alike, squirt does not: marks on one side alone
// can't tell them apart, however many there are.
func TestOneSideCantTellSquirtFromAim(t *testing.T) {
	one := []shot.Shot{from(0, 0.4), from(0, 0.4), from(0, 0.4), from(0, 0.4), from(0, 0.4), from(0, 0.4)}
	both := []shot.Shot{from(0, 0.4), from(0, -0.4), from(0, 0.4), from(0, -0.4), from(0, 0.4), from(0, -0.4)}
	who := exact(11 * unit.Inch)
	who.Aim = 0.3 * unit.Degree
	alone, paired := weigh(t, sitting.Habit, marks(t, who, one)...), weigh(t, sitting.Habit, marks(t, who, both)...)
	assert.Greater(t, width(alone.Pivot(0)), 1.5*width(paired.Pivot(0)))
	assert.InDelta(t, 0.3, paired.AimBias().Median/float64(unit.Degree), 0.1)
	assert.True(t, paired.Pivot(0).Holds(float64(11*unit.Inch)))
}

// Parallel strokes with english to either side in turn, all alike otherwise, give
// no way to tell squirt from an error that all of them share. So the variance of the
// answer is that without such errors plus the square of what each of them alone would
// make of the pivot length: the usual sum of independent errors. An instrument that
// reads the elevation to a fifth of what it was leaves a fifth of its part. The sum of
// those squares is also what other sittings of the set-up share.
func TestSetUpErrorsAddInQuadrature(t *testing.T) {
	t.Parallel()
	const truth = 11 * unit.Inch
	strokes := func(speed unit.Speed) []sitting.Stroke {
		var shots []shot.Shot
		for i := range 12 {
			s := from(0, 0.4-0.8*float64(i%2))
			s.Speed = speed
			shots = append(shots, s)
		}
		return marks(t, exact(truth), shots)
	}
	for _, speed := range []unit.Speed{7 * unit.MilePerHour, 12 * unit.MilePerHour} {
		// apart is how far apart the marks of both sides are.
		apart := func(who sitting.Tester) float64 {
			var x [2]unit.Length
			for i, side := range []float64{-0.4, 0.4} {
				s := from(0, side)
				s.Speed = speed
				var err error
				x[i], err = who.Play(s, sitting.Habit, line)
				require.NoError(t, err)
			}
			return float64(x[0] - x[1])
		}
		slope := (apart(exact(truth*1.05)) - apart(exact(truth/1.05))) / (2 * math.Log(1.05))
		var parts [5]float64 // of the width, in the logarithm of the pivot length
		for d := range parts {
			more, less := exact(truth), exact(truth)
			more.Errors[d], less.Errors[d] = 1, -1
			parts[d] = 2 * stat.Reach90 * (apart(more) - apart(less)) / 2 / slope
		}
		sum := func(width, elevation float64) float64 {
			square := width*width + (elevation*elevation-1)*parts[sitting.ElevationError]*parts[sitting.ElevationError]
			for _, v := range parts {
				square += v * v
			}
			return math.Sqrt(square)
		}
		measured := sitting.Habit
		measured.Elevation /= 5
		k := strokes(speed)
		none := width(weigh(t, sitting.SetUp{}, k...).Pivot(0))
		habit, phone := weigh(t, sitting.Habit, k...), weigh(t, measured, k...)
		assert.InEpsilon(t, sum(none, 1), width(habit.Pivot(0)), 0.05, "%v", speed)
		assert.InEpsilon(t, sum(none, 0.2), width(phone.Pivot(0)), 0.05, "%v", speed)

		shared := func(p *sitting.Posterior) float64 {
			known, err := p.Known(0)
			require.NoError(t, err)
			require.Len(t, known.Shared, 1)
			square := 0.0
			for _, v := range known.Shared[0].By {
				square += v * v
			}
			return math.Sqrt(square) / known.Spread
		}
		assert.InEpsilon(t, sum(0, 1)/sum(none, 1), shared(habit), 0.05, "%v", speed)
		assert.InEpsilon(t, sum(0, 0.2)/sum(none, 0.2), shared(phone), 0.05, "%v", speed)
	}
}

// Cues of one sitting share the player and the set-up, so which of them squirts
// less is known better than how much either does.
func TestDifferenceOfTwoCues(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 4))
	right, alone := 0, 0
	for range 15 {
		who := sitting.Draw(r)
		who.Pivot, who.Scatter = 11*unit.Inch, 0.15*unit.Degree
		other := who
		other.Pivot = 13 * unit.Inch
		var strokes []sitting.Stroke
		for i := range 12 {
			cue, tester := i%2, who
			if cue == 1 {
				tester = other
			}
			k, err := tester.AtLine(from(0, 0.4-0.8*float64(i/2%2)), sitting.Habit, mark(0), r)
			require.NoError(t, err)
			k.Cue = cue
			strokes = append(strokes, k)
		}
		p := weigh(t, sitting.Habit, strokes...)
		d := p.Compare(1, 0)
		if d.Less > 0.5 {
			right++
		}
		apart := width(d.Ratio)
		// Told apart, the two know the same of their difference as together.
		a, err := p.Known(0)
		require.NoError(t, err)
		b, err := p.Known(1)
		require.NoError(t, err)
		a.Shared[0].Sitting, b.Shared[0].Sitting = "Tuesday", "Tuesday"
		assert.InDelta(t, d.Less, cues.Less(b, a), 0.06)
		if math.Hypot(width(p.EndMass(0)), width(p.EndMass(1))) > apart {
			alone++
		}
		assert.InDelta(t, 1, d.Less+p.Compare(0, 1).Less, 0.03)
	}
	assert.Greater(t, right, 11, "the lower squirt is the likelier one")
	assert.Equal(t, 15, alone, "the difference is better known than its parts")
}

// A cue beyond the ends of the prior leans on them, and one within does not.
func TestLeansOnTheEdges(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		pivot unit.Length
		want  sitting.Edge
	}{{4.2, sitting.ShortEdge}, {4.5, sitting.ShortEdge}, {7, sitting.NoEdge}, {13, sitting.NoEdge}, {80, sitting.LongEdge}, {200, sitting.LongEdge}} {
		var shots []shot.Shot
		for i := range 10 {
			shots = append(shots, from(0, 0.4-0.8*float64(i%2)))
		}
		p := weigh(t, sitting.Habit, marks(t, exact(tc.pivot*unit.Inch), shots)...)
		assert.Equal(t, tc.want, p.Leans(0), "%v in: %v", tc.pivot, p.Pivot(0))
	}
	assert.Equal(t, sitting.NoEdge, sitting.Prior(sitting.Habit).Leans(0), "nothing is claimed yet")
}

// What the strokes look like as a whole.
func TestFit(t *testing.T) {
	t.Parallel()
	var shots []shot.Shot
	for i := range 10 {
		bridge := unit.Length(i%3) * 8 * unit.Inch
		shots = append(shots, from(bridge, 0.4-0.8*float64(i%2)))
	}
	noise := []unit.Length{1, -2, 2, -1, 0.5, 1.5, -1.5, -0.5, 2, -2}
	for i := range noise {
		noise[i] *= unit.Millimetre
	}
	who := exact(10 * unit.Inch)
	good := marks(t, who, shots, noise...)
	fit, _ := weigh(t, sitting.Habit, good...).Fit()
	assert.Equal(t, sitting.Fits, fit)

	var swapped []sitting.Stroke
	for _, k := range good {
		m := k.Seen.(sitting.Mark)
		m.At = -m.At
		k.Seen = m
		swapped = append(swapped, k)
	}
	fit, _ = weigh(t, sitting.Habit, swapped...).Fit()
	assert.Equal(t, sitting.Swapped, fit)

	slipped := append([]sitting.Stroke(nil), good...)
	m := slipped[6].Seen.(sitting.Mark)
	m.At += 4 * unit.Inch
	slipped[6].Seen = m
	p := weigh(t, sitting.Habit, slipped...)
	fit, which := p.Fit()
	assert.Equal(t, sitting.OneOff, fit)
	assert.Equal(t, []int{6}, which)
	assert.Less(t, p.Doubt(2), 0.1)
	assert.True(t, p.Pivot(0).Holds(float64(10*unit.Inch)), "one wrong note does no harm")

	var drifting []sitting.Stroke
	for i, k := range good {
		m := k.Seen.(sitting.Mark)
		m.At += unit.Length(i) * 2.5 * unit.Millimetre
		k.Seen = m
		drifting = append(drifting, k)
	}
	fit, _ = weigh(t, sitting.Habit, drifting...).Fit()
	assert.Equal(t, sitting.Drifts, fit)
}

// Many strokes that contradict each other leave an interval that is wider than without the
// contradiction, and each takes a time that does not grow with their number.
func TestALongContradiction(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	t.Parallel()
	const strokes = 120
	var shots []shot.Shot
	for i := range strokes {
		shots = append(shots, from(unit.Length(i%3)*8*unit.Inch, 0.4-0.8*float64(i%2)))
	}
	noise := rand.New(rand.NewPCG(1, 2))
	p := sitting.Prior(sitting.Habit)
	var agreed stat.Summary[float64]
	steps := 0
	for i, k := range marks(t, exact(10*unit.Inch), shots) {
		m := k.Seen.(sitting.Mark)
		m.At += 3 * unit.Millimetre * unit.Length(noise.NormFloat64())
		if i == 70 {
			agreed = p.Pivot(0)
		}
		if i >= 70 { // noted on the wrong side
			m.At = -m.At
		}
		k.Seen = m
		var err error
		p, err = p.AddWhile(k, func() bool { steps++; return true })
		require.NoError(t, err)
	}
	now := p.Pivot(0)
	assert.Greater(t, now.To/now.From, agreed.To/agreed.From)
	assert.Less(t, steps, 20*strokes)
}

// The patterns of a long sitting are looked for in a part of its strokes, which lie over
// the whole of it: what spoils it is still seen.
func TestFitOfALongSitting(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	t.Parallel()
	const strokes = 150
	var shots []shot.Shot
	for i := range strokes {
		shots = append(shots, from(unit.Length(i%3)*8*unit.Inch, 0.4-0.8*float64(i%2)))
	}
	noise := rand.New(rand.NewPCG(1, 2))
	var drifting []sitting.Stroke
	for i, k := range marks(t, exact(10*unit.Inch), shots) {
		m := k.Seen.(sitting.Mark)
		m.At += 3 * unit.Millimetre * unit.Length(noise.NormFloat64())
		m.At += unit.Length(i) * 0.15 * unit.Millimetre
		k.Seen = m
		drifting = append(drifting, k)
	}
	p := weigh(t, sitting.Habit, drifting...)
	fit, _ := p.Fit()
	assert.Equal(t, sitting.Drifts, fit)
}

// A fit that is told to stop claims nothing, and stops at once.
func TestFitGivesUp(t *testing.T) {
	var shots []shot.Shot
	for i := range 6 {
		shots = append(shots, from(0, 0.4-0.8*float64(i%2)))
	}
	strokes := marks(t, exact(11*unit.Inch), shots)
	for i, k := range strokes { // the sides changed round
		m := k.Seen.(sitting.Mark)
		m.At = -m.At
		strokes[i].Seen = m
	}
	p := weigh(t, sitting.Habit, strokes...)
	swapped, _ := p.Fit()
	require.Equal(t, sitting.Swapped, swapped)
	asked := 0
	what, _ := p.FitWhile(func() bool { asked++; return asked < 3 })
	assert.Equal(t, sitting.Fits, what)
	assert.Less(t, asked, 20)
}

// Strokes that are added all at once say what they say one by one, however the list is cut,
// and the impossible ones among them are left out.
func TestAllAtOnceIsOneByOne(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 4))
	who := sitting.Tester{Pivot: 11 * unit.Inch, Scatter: 0.3 * unit.Degree, Aim: 0.1 * unit.Degree}
	strokes := evening(t, who, 40, r)
	for i := range strokes {
		strokes[i].Cue, strokes[i].Sitting = i/3%2, i/20
	}
	strokes[7].Seen = sitting.Gate(7)
	always := func() bool { return true }
	whole, errs := sitting.Of(sitting.Habit, strokes)
	require.Len(t, errs, len(strokes))
	for i, err := range errs {
		assert.Equal(t, i == 7, err != nil, i)
	}
	assert.ErrorIs(t, errs[7], sitting.ErrOutcome)
	for _, part := range []int{1, 7} {
		p := sitting.Prior(sitting.Habit)
		var before *sitting.Posterior
		for from := 0; from < len(strokes); from += part {
			var ok bool
			before = p
			p, _, ok = p.AddAllWhile(strokes[from:min(from+part, len(strokes))], always)
			require.True(t, ok)
		}
		assert.Equal(t, len(strokes)-1, p.N())
		assert.Less(t, before.N(), p.N(), "that is as it was")
		for cue := range 2 {
			assert.Equal(t, whole.Strokes(cue), p.Strokes(cue))
			one, all := p.Pivot(cue), whole.Pivot(cue)
			assert.InEpsilon(t, all.Median, one.Median, 1e-6)
			assert.InEpsilon(t, all.From, one.From, 1e-6)
			assert.InEpsilon(t, all.To, one.To, 1e-6)
		}
		assert.InDelta(t, whole.Evidence(), p.Evidence(), 1e-6)
		assert.InDelta(t, whole.Doubt(3), p.Doubt(3), 1e-6)
	}
	for stop := range 40 {
		n := 0
		_, _, ok := whole.AddAllWhile(strokes, func() bool { n++; return n <= stop })
		assert.False(t, ok, stop)
		assert.Equal(t, stop+1, n, "it stops at once")
	}
}

// A stroke that is told to stop is not added, at whatever step, and one that is not
// stopped comes out as if it had been added at once. The list is long enough for a
// cloud to be drawn anew, which takes a step for every stroke.
func TestAddGivesUp(t *testing.T) {
	t.Parallel()
	var shots []shot.Shot
	for i := range 9 {
		shots = append(shots, from(unit.Length(i%3)*8*unit.Inch, 0.4-0.8*float64(i%2)))
	}
	p, most := sitting.Prior(sitting.Habit), 0
	for _, k := range marks(t, exact(11*unit.Inch), shots) {
		for last := 0; ; last++ {
			steps := 0
			next, err := p.AddWhile(k, func() bool { steps++; return steps <= last })
			if err == nil {
				whole, err := p.Add(k)
				require.NoError(t, err)
				assert.Equal(t, whole.Pivot(0), next.Pivot(0))
				most = max(most, steps)
				p = next
				break
			}
			assert.ErrorIs(t, err, sitting.ErrStopped)
			assert.Equal(t, last+1, steps, "it stops at once")
		}
	}
	assert.Greater(t, most, 4, "one of them drew a cloud anew")
}

func TestStrokesThatCantHaveBeen(t *testing.T) {
	s := from(12*unit.Inch, 0.4)
	far := s
	far.Hands.Bridge = 60 * unit.Inch
	slow, nowhere := s, s
	slow.Speed, nowhere.Gate.Dist = 0.05*unit.MetrePerSecond, 0
	film := sitting.Film{Cov: [][]float64{{1, 2}, {2, 1}}, Across: 1}
	wide := sitting.Film{Lines: []unit.Length{line}, At: []unit.Length{2}, Cov: [][]float64{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}, Across: 1}
	behind := wide
	behind.Lines = []unit.Length{-1}
	for _, tc := range []struct {
		name string
		k    sitting.Stroke
		want error
	}{
		{"outcome", sitting.Stroke{Shot: s, Seen: sitting.Gate(7)}, sitting.ErrOutcome},
		{"no gate", sitting.Stroke{Shot: nowhere, Seen: sitting.Clean}, sitting.ErrNoLine},
		{"no line", sitting.Stroke{Shot: s, Seen: sitting.Mark{Read: 1, Across: 1}}, sitting.ErrNoLine},
		{"bridge", sitting.Stroke{Shot: far, Seen: sitting.Clean}, sitting.ErrBridge},
		{"short", sitting.Stroke{Shot: slow, Seen: sitting.Clean}, sitting.ErrNoCrossing},
		{"beyond", sitting.Stroke{Shot: s, Seen: mark(51 * unit.Inch)}, sitting.ErrBeyond},
		{"not a number", sitting.Stroke{Shot: s, Seen: mark(unit.Length(math.NaN()))}, sitting.ErrBeyond},
		{"read", sitting.Stroke{Shot: s, Seen: sitting.Mark{Line: line, Across: 1}}, sitting.ErrRead},
		{"cue", sitting.Stroke{Cue: -1, Shot: s, Seen: sitting.Clean}, sitting.ErrCue},
		{"a sitting before the first", sitting.Stroke{Sitting: -1, Shot: s, Seen: sitting.Clean}, sitting.ErrSitting},
		{"a sitting too many", sitting.Stroke{Sitting: sitting.MostSittings, Shot: s, Seen: sitting.Clean}, sitting.ErrSitting},
		{"film", sitting.Stroke{Shot: s, Seen: film}, sitting.ErrFilm},
		{"film of another size", sitting.Stroke{Shot: s, Seen: sitting.Film{Cov: [][]float64{{1}}}}, sitting.ErrFilm},
		{"film beyond", sitting.Stroke{Shot: s, Seen: wide}, sitting.ErrBeyond},
		{"film of a ball too slow", sitting.Stroke{Shot: slow, Seen: sitting.Film{Lines: wide.Lines, At: []unit.Length{0}, Cov: wide.Cov, Across: 1}}, sitting.ErrNoCrossing},
		{"off the ball", sitting.Stroke{Shot: from(12*unit.Inch, 1.2), Seen: sitting.Clean}, strike.ErrOffBall},
		{"film of a line behind", sitting.Stroke{Shot: s, Seen: behind}, sitting.ErrNoLine},
	} {
		_, err := sitting.Prior(sitting.Habit).Add(tc.k)
		assert.ErrorIs(t, err, tc.want, tc.name)
	}
	p, errs := sitting.Of(sitting.Habit, []sitting.Stroke{{Shot: s, Seen: sitting.Clean}, {Shot: slow, Seen: sitting.Clean}, {Shot: s, Seen: sitting.Left}})
	assert.Equal(t, 2, p.N())
	assert.NoError(t, errs[0])
	assert.ErrorIs(t, errs[1], sitting.ErrNoCrossing)
}

// Strokes that contradict each other leave a wide answer, never none; and a
// long sitting does not run out of numbers.
func TestContradictionsAndLongSittings(t *testing.T) {
	t.Parallel()
	s := from(12*unit.Inch, 0.4)
	var strokes []sitting.Stroke
	for i := range 12 {
		strokes = append(strokes, sitting.Stroke{Shot: s, Seen: mark(unit.Length(8-16*(i%2)) * unit.Inch)})
	}
	wide := weigh(t, sitting.Habit, strokes...)
	assert.Greater(t, width(wide.Pivot(0)), 1.0)
	assert.False(t, math.IsNaN(wide.Pivot(0).Median))

	r := rand.New(rand.NewPCG(5, 6))
	who := sitting.Draw(r)
	who.Pivot, who.Scatter = 13*unit.Inch, 0.3*unit.Degree
	strokes = nil
	for i := range 220 { // the product of so many densities is more than a float64 holds
		k, err := who.AtLine(from(unit.Length(i%4)*6*unit.Inch, 0.4-0.8*float64(i%2)), sitting.Habit, mark(0), r)
		require.NoError(t, err)
		strokes = append(strokes, k)
	}
	long := weigh(t, sitting.Habit, strokes...)
	assert.InDelta(t, 0.3, long.Scatter().Median/float64(unit.Degree), 0.06)
	assert.Less(t, width(long.Pivot(0)), 0.25)
	assert.Greater(t, width(long.Pivot(0)), 0.03, "errors shared by all strokes stay")
}

// A film that tells no more than a mark does is worth what the mark is, and one
// with the launch and the speed as well is worth more.
func TestFilm(t *testing.T) {
	t.Parallel()
	who := exact(11 * unit.Inch)
	shots := []shot.Shot{from(0, 0.4), from(0, -0.4), from(10*unit.Inch, 0.4), from(10*unit.Inch, -0.4)}
	off := []unit.Length{2 * unit.Millimetre, -unit.Millimetre, -3 * unit.Millimetre, unit.Millimetre}
	byMark := marks(t, who, shots, off...)
	film := func(launch, speed float64) []sitting.Stroke {
		var out []sitting.Stroke
		for i, k := range byMark {
			var res shot.Result
			s := shots[i]
			s.Cue.Pivot = who.Pivot
			shot.Play(&s, &res)
			read := float64(sitting.ByEye)
			k.Seen = sitting.Film{
				Launch: res.Reading.Launch.Value, Lines: []unit.Length{line}, At: []unit.Length{k.Seen.(sitting.Mark).At}, Speed: s.Speed,
				Cov: [][]float64{{launch * launch, 0, 0}, {0, read * read, 0}, {0, 0, speed * speed}}, Across: 50 * unit.Inch,
			}
			out = append(out, k)
		}
		return out
	}
	mark, vague, sharp := weigh(t, sitting.Habit, byMark...), weigh(t, sitting.Habit, film(10, 1000)...), weigh(t, sitting.Habit, film(0.003, 0.05)...)
	assert.InEpsilon(t, mark.Pivot(0).Median, vague.Pivot(0).Median, 0.02)
	assert.InDelta(t, width(mark.Pivot(0)), width(vague.Pivot(0)), 0.05*width(mark.Pivot(0)))
	assert.Less(t, width(sharp.Pivot(0)), 0.95*width(mark.Pivot(0)))

	// Changing left and right round in the whole sitting changes nothing but the
	// side of the aim bias.
	var other []sitting.Stroke
	for _, k := range film(0.003, 0.05) {
		f := k.Seen.(sitting.Film)
		k.Shot.Contact.Side = -k.Shot.Contact.Side
		f.Launch, f.At = -f.Launch, []unit.Length{-f.At[0]}
		k.Seen = f
		other = append(other, k)
	}
	mirrored := weigh(t, sitting.Habit, other...)
	assert.InEpsilon(t, sharp.Pivot(0).Median, mirrored.Pivot(0).Median, 0.02)
	assert.InDelta(t, sharp.AimBias().Median, -mirrored.AimBias().Median, 0.02*float64(unit.Degree))
}

// A tester's films are off by what their covariance says: of the launch, the place and
// the speed, and of launch and place together. Scatter moves launch and place alike.
func TestFilmsOfATester(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 7))
	who := sitting.Tester{Pivot: 11 * unit.Inch, Scatter: 0.2 * unit.Degree}
	s := from(9*unit.Inch, 0.4)
	const launch, place, both, pace = 1e-3, 2e-3, 1e-6, 0.1
	film := sitting.Film{
		Lines: []unit.Length{line}, Across: 50 * unit.Inch,
		Cov: [][]float64{{launch * launch, both, 0}, {both, place * place, 0}, {0, 0, pace * pace}},
	}
	played := s
	played.Cue.Pivot = who.Pivot
	var res shot.Result
	shot.Play(&played, &res)
	start, _ := res.Path.At(0)
	at, err := who.Play(s, sitting.Habit, line)
	require.NoError(t, err)
	const n = 20000
	var squares [4]float64
	for range n {
		k, err := who.OnFilm(s, sitting.Habit, film, r)
		require.NoError(t, err)
		f := k.Seen.(sitting.Film)
		a, b, v := float64(f.Launch-motion.Bearing(start.Vel)), float64(f.At[0]-at), float64(f.Speed)-start.Vel.Norm()
		if math.Abs(a) > 4*math.Hypot(launch, float64(who.Scatter)) {
			continue // noted wrongly
		}
		for i, v := range []float64{a * a, b * b, a * b, v * v} {
			squares[i] += v / n
		}
	}
	scatter := float64(who.Scatter * who.Scatter)
	const kept = 0.98 // of strokes are noted as they were
	assert.InEpsilon(t, kept*(launch*launch+scatter), squares[0], 0.05)
	assert.InEpsilon(t, kept*(place*place+float64(line*line)*scatter), squares[1], 0.05)
	assert.InEpsilon(t, kept*(both+float64(line)*scatter), squares[2], 0.05)
	assert.InEpsilon(t, kept*pace*pace, squares[3], 0.05)

	film.Cov = [][]float64{{-1}}
	_, err = who.OnFilm(s, sitting.Habit, film, r)
	assert.ErrorIs(t, err, sitting.ErrFilm)
	film.Cov = [][]float64{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
	wide := s
	wide.Contact.Side = 0.75
	_, err = who.OnFilm(wide, sitting.Habit, film, r)
	assert.ErrorIs(t, err, strike.ErrOffTip)
	film.Lines = []unit.Length{90 * unit.Metre}
	_, err = who.OnFilm(s, sitting.Habit, film, r)
	assert.ErrorIs(t, err, sitting.ErrNoCrossing)
}

// Sides noted the wrong way round are found out at a gate and on film too.
func TestSwappedSidesOfEveryKind(t *testing.T) {
	t.Parallel()
	var gates, films []sitting.Stroke
	for i := range 8 {
		s := from(0, 0.4-0.8*float64(i%2))
		seen := sitting.Left // of english to the right without a turn, noted as it is not
		if i%2 == 0 {
			seen = sitting.Right
		}
		gates = append(gates, sitting.Stroke{Shot: s, Seen: seen})
		x, err := exact(10*unit.Inch).Play(s, sitting.SetUp{}, line)
		require.NoError(t, err)
		films = append(films, sitting.Stroke{Shot: s, Seen: sitting.Film{
			Launch: -unit.Angle(math.Atan2(float64(x), float64(line))), Lines: []unit.Length{line}, At: []unit.Length{-x}, Speed: s.Speed,
			Cov: [][]float64{{1e-5, 0, 1e-7}, {0, 1e-5, 0}, {1e-7, 0, 1}}, Across: 50 * unit.Inch,
		}})
	}
	for name, strokes := range map[string][]sitting.Stroke{"gate": gates, "film": films} {
		fit, _ := weigh(t, sitting.Habit, strokes...).Fit()
		assert.Equal(t, sitting.Swapped, fit, name)
	}
}
