package margin_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/margin"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// phi is the cumulative distribution function of the standard Normal distribution.
func phi(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// near checks that a share is within four standard errors and within 0.003.
func near(t *testing.T, want float64, got margin.Rate, what string) {
	t.Helper()
	assert.InDelta(t, want, got.Share, 0.003, what)
	assert.InDelta(t, want, got.Share, 4*got.Err, what)
}

// straight returns a level centre-ball shot.
func straight() shot.Shot {
	s := level()
	s.Contact.Side = 0
	return s
}

// everything is some scatter of each kind.
var everything = margin.Scatter{
	Tip: 1.5 * unit.Millimetre, Speed: 0.06, Bridge: 0.4 * unit.Inch, Elev: 0.7 * unit.Degree, Aim: 0.3 * unit.Degree,
}

// played draws a random stroke with the distribution that Scatter describes.
func played(rng *rand.Rand, s shot.Shot, sc margin.Scatter) shot.Shot {
	s.Contact.Side += rng.NormFloat64() * float64(sc.Tip/s.Ball.Radius)
	s.Contact.Height += rng.NormFloat64() * float64(sc.Tip/s.Ball.Radius)
	s.Speed *= unit.Speed(1 + rng.NormFloat64()*sc.Speed)
	s.Hands.Bridge += unit.Length(rng.NormFloat64()) * sc.Bridge
	s.Elevation = max(0, s.Elevation+unit.Angle(rng.NormFloat64())*sc.Elev)
	s.AimOff += unit.Angle(rng.NormFloat64()) * sc.Aim
	return s
}

// chance returns the share of n random strokes that succeed.
func chance(seed uint64, n int, s shot.Shot, sc margin.Scatter, goal margin.Goal) float64 {
	rng := rand.New(rand.NewPCG(seed, 72))
	var path motion.Path
	good := 0
	for range n {
		tried := played(rng, s, sc)
		if tried.Send(&path) == nil && goal(&tried, &path) {
			good++
		}
	}
	return float64(good) / float64(n)
}

// A straight ball with the aim error ε arrives D sin ε to the side. It is within w with
// the probability that a standard Normal variable is within asin(w/D)/σ.
func TestOnTargetInClosedForm(t *testing.T) {
	s, m := straight(), margin.NewSampler(10_000)
	for _, within := range []unit.Length{1, 3, 6, 12} {
		within *= unit.Millimetre
		sc := margin.Scatter{Aim: 0.3 * unit.Degree}
		z := math.Asin(float64(within/s.Dist)) / float64(sc.Aim)
		near(t, math.Erf(z/math.Sqrt2), m.Success(&s, sc, margin.OnTarget(within)), "within")
	}
}

// The stated error of a rate is fair: over many shots its ratio to the actual error,
// found with forty times the points, averages about one.
func TestStatedErrorIsFair(t *testing.T) {
	fine, coarse, rng := margin.NewSampler(16_000), margin.NewSampler(400), rand.New(rand.NewPCG(81, 82))
	squares, n := 0.0, 0.0
	for n < 20 {
		s := level()
		s.Contact.Side, s.Elevation = rng.Float64()*0.8-0.4, unit.Angle(rng.Float64()*5)*unit.Degree
		goal := margin.OnTarget(unit.Length(5+15*rng.Float64()) * unit.Millimetre)
		got := coarse.Success(&s, everything, goal)
		if got.Share < 0.05 || got.Share > 0.95 {
			continue // too few strokes on one side to tell
		}
		off := (got.Share - fine.Success(&s, everything, goal).Share) / got.Err
		squares += off * off
		n++
	}
	ratio := math.Sqrt(squares / n)
	t.Log(ratio)
	assert.Greater(t, ratio, 0.5)
	assert.Less(t, ratio, 2.0)
}

// limit returns the aim between in and out at which the ball stops dropping, by
// bisection.
func limit(s shot.Shot, in, out unit.Angle) unit.Angle {
	drops := margin.Pocketed()
	var path motion.Path
	for range 60 {
		s.AimOff = (in + out) / 2
		if s.Send(&path) == nil && drops(&s, &path) {
			in = s.AimOff
		} else {
			out = s.AimOff
		}
	}
	return in
}

// With only the aim uncertain, the ball drops between two headings.
func TestPocketedInClosedForm(t *testing.T) {
	m := margin.NewSampler(10_000)
	for _, cut := range []unit.Angle{0, 30, -45} {
		s := medium()
		s.Object.Cut = cut * unit.Degree
		var res shot.Result
		shot.Play(&s, &res)
		aim, err := s.ToPocket(&res)
		require.NoError(t, err)
		best := aim.Heading - res.Reading.Heading.Value
		left, right := limit(s, best, best-5*unit.Degree), limit(s, best, best+5*unit.Degree)
		for _, off := range []unit.Angle{0, 0.3 * unit.Degree} {
			s.AimOff = best + off
			sc := margin.Scatter{Aim: 0.35 * unit.Degree}
			want := phi(float64((right-s.AimOff)/sc.Aim)) - phi(float64((left-s.AimOff)/sc.Aim))
			require.Greater(t, want, 0.1)
			require.Less(t, want, 0.995)
			near(t, want, m.Success(&s, sc, margin.Pocketed()), "cut")
		}
	}
}

// A straight ball passes the gate clean within w/2 − R of its middle.
func TestThroughGateInClosedForm(t *testing.T) {
	s, m := straight(), margin.NewSampler(10_000)
	s.Gate.Gap = 2.6 * unit.Inch
	sc := margin.Scatter{Aim: 0.4 * unit.Degree}
	// For a ball that leaves the origin at the angle ε, the line passes (w/2 + R) cos ε −
	// D sin ε from the nearer blocker's centre.
	edge := func() float64 {
		lo, hi := 0.0, 0.1
		post := float64(s.Gate.Gap/2 + s.Ball.Radius)
		for range 60 {
			mid := (lo + hi) / 2
			if post*math.Cos(mid)-float64(s.Gate.Dist)*math.Sin(mid) > 2*float64(s.Ball.Radius) {
				lo = mid
			} else {
				hi = mid
			}
		}
		return lo
	}()
	near(t, math.Erf(edge/float64(sc.Aim)/math.Sqrt2), m.Success(&s, sc, margin.ThroughGate), "gate")
	s.Gate.Dist = 0
	assert.Zero(t, m.Success(&s, sc, margin.ThroughGate).Share, "no gate, nothing to pass")
}

func TestNoScatter(t *testing.T) {
	m := margin.NewSampler(80)
	s := straight()
	assert.Equal(t, margin.Rate{Share: 1, N: 80}, m.Success(&s, margin.Scatter{}, margin.Pocketed()))
	assert.Equal(t, margin.Rate{Share: 1, N: 80}, m.Success(&s, margin.Scatter{}, margin.OnTarget(unit.Millimetre)))
	s.AimOff = 2 * unit.Degree
	for _, goal := range []margin.Goal{margin.Pocketed(), margin.OnTarget(unit.Millimetre), margin.ThroughGate} {
		assert.Equal(t, margin.Rate{N: 80}, m.Success(&s, margin.Scatter{}, goal))
	}
	s = straight()
	s.Contact.Side = 0.6
	assert.Zero(t, m.Success(&s, margin.Scatter{}, margin.Pocketed()).Share, "a miscue fails")
	s = straight()
	s.Speed = 0.1
	assert.Zero(t, m.Success(&s, margin.Scatter{}, margin.OnTarget(1)).Share, "a ball that stops short fails")
}

func TestTheSameEveryTime(t *testing.T) {
	s := medium()
	a := margin.NewSampler(2000).Success(&s, everything, margin.Pocketed())
	b := margin.NewSampler(2000).Success(&s, everything, margin.Pocketed())
	assert.Equal(t, a, b)
	assert.Positive(t, a.Err)
}

// If the stated standard errors are honest, the deviations of many shares from a large
// Monte Carlo simulation, in units of both standard errors together, have a mean square
// near 1. With eight shifts a deviation follows Student's t with seven degrees of
// freedom, whose mean square is 7/5.
func TestStandardErrorIsHonest(t *testing.T) {
	const strokes = 60_000
	rng := rand.New(rand.NewPCG(73, 74))
	m := margin.NewSampler(1600)
	sum, gain, shots := 0.0, 0.0, 0
	for shots < 24 {
		s := medium()
		s.Hands.Bridge = unit.Length(8+12*rng.Float64()) * unit.Inch
		s.Contact.Side = 0.8*rng.Float64() - 0.4
		s.Object.Cut = unit.Angle(80*rng.Float64()-40) * unit.Degree
		goal := margin.OnTarget(15 * unit.Millimetre)
		if shots%2 == 0 {
			goal = margin.Pocketed()
			var res shot.Result
			shot.Play(&s, &res)
			aim, err := s.ToPocket(&res)
			require.NoError(t, err)
			s.AimOff = aim.Heading - res.Reading.Heading.Value
		}
		got := m.Success(&s, everything, goal)
		if got.Share < 0.1 || got.Share > 0.95 {
			continue
		}
		shots++
		want := chance(uint64(shots), strokes, s, everything, goal)
		of := math.Hypot(got.Err, math.Sqrt(want*(1-want)/strokes))
		assert.InDelta(t, want, got.Share, 5*of)
		sum += math.Pow((got.Share-want)/of, 2)
		plain := got.Share * (1 - got.Share) / float64(got.N)
		gain += got.Err * got.Err / plain
	}
	t.Logf("mean square deviation %.2f, variance %.2f of plain chance's", sum/24, gain/24)
	assert.Greater(t, sum/24, 0.3)
	assert.Less(t, sum/24, 2.2)
	assert.Less(t, gain/24, 1.0, "better than plain chance")
}

// Four times the strokes give about half the error or less.
func TestStandardErrorFalls(t *testing.T) {
	s := medium()
	mean := func(n int) float64 {
		m, sum := margin.NewSampler(n), 0.0
		for i := range 10 {
			s.Hands.Bridge = unit.Length(12+0.3*float64(i)) * unit.Inch
			sum += m.Success(&s, everything, margin.Pocketed()).Err
		}
		return sum / 10
	}
	few, many := mean(800), mean(12_800)
	assert.Less(t, many, few/3)
}

// Each random number of a stroke is a standard Normal one by itself, and independent of
// the others. The strokes show these numbers.
func TestPoints(t *testing.T) {
	s := medium()
	s.Elevation = 10 * unit.Degree
	sc := margin.Scatter{Tip: 1e-5, Speed: 1e-3, Bridge: 1e-4, Elev: 1e-3, Aim: 1e-3}
	var z [6][]float64
	m := margin.NewSampler(9_999)
	m.Success(&s, sc, func(tried *shot.Shot, _ *motion.Path) bool {
		for d, v := range [6]float64{
			(tried.Contact.Side - s.Contact.Side) * float64(s.Ball.Radius/sc.Tip),
			(tried.Contact.Height - s.Contact.Height) * float64(s.Ball.Radius/sc.Tip),
			(float64(tried.Speed/s.Speed) - 1) / sc.Speed,
			float64((tried.Hands.Bridge - s.Hands.Bridge) / sc.Bridge),
			float64((tried.Elevation - s.Elevation) / sc.Elev),
			float64((tried.AimOff - s.AimOff) / sc.Aim),
		} {
			z[d] = append(z[d], v)
		}
		return true
	})
	n := m.N()
	assert.Equal(t, 10_000, n, "a multiple of eight")
	product := func(a, b []float64) (sum float64) {
		for i := range a {
			sum += a[i] * b[i]
		}
		return sum / float64(n)
	}
	for d := range z {
		require.Len(t, z[d], n)
		mean := 0.0
		for _, v := range z[d] {
			mean += v / float64(n)
		}
		assert.InDelta(t, 0, mean, 0.004, "mean %d", d)
		assert.InDelta(t, 1, math.Sqrt(product(z[d], z[d])), 0.005, "spread %d", d)
		for e := range d {
			assert.InDelta(t, 0, product(z[d], z[e]), 0.015, "%d with %d", d, e)
		}
	}
	for d := range z {
		slices.Sort(z[d])
		far := 0.0 // Kolmogorov–Smirnov distance; random points would have about 0.0087
		for i, v := range z[d] {
			far = max(far, math.Abs(phi(v)-float64(i)/float64(n)), math.Abs(phi(v)-float64(i+1)/float64(n)))
		}
		assert.Less(t, far, 0.004, "dimension %d", d)
	}
}

// The smallest sampler still has one stroke for each shift, and even wild scatter never
// produces an impossible stroke.
func TestSamplerEdges(t *testing.T) {
	assert.Equal(t, 8, margin.NewSampler(0).N())
	assert.Equal(t, 8, margin.NewSampler(8).N())
	assert.Equal(t, 16, margin.NewSampler(9).N())
	s := straight()
	wild := margin.Scatter{Speed: 10, Bridge: 100, Elev: 10}
	low, butt := 0, 0
	margin.NewSampler(1000).Success(&s, wild, func(tried *shot.Shot, _ *motion.Path) bool {
		assert.Positive(t, float64(tried.Speed))
		assert.GreaterOrEqual(t, float64(tried.Hands.Bridge), 0.0)
		assert.GreaterOrEqual(t, float64(tried.Elevation), 0.0)
		assert.Less(t, float64(tried.Elevation), math.Pi/2)
		if tried.Speed < s.Speed/50 {
			low++
		}
		if tried.Elevation == 0 {
			butt++
		}
		return true
	})
	assert.Greater(t, low, 300)
	assert.Greater(t, butt, 300)
}
