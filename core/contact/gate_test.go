package contact_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/contact"
	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

const radius = 1.125 * unit.Inch

var normal = gear.Cloth{Slide: 0.2, Roll: 0.01, SpinDecay: 10, Rebound: 0.5}

func between(rng *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }

// randomPath returns a path roughly towards the gate. Some hop, some curve, some stop
// short.
func randomPath(rng *rand.Rand) motion.Path {
	pace := 0.5 * math.Pow(16, rng.Float64())
	vel := vec.V{X: between(rng, -0.15, 0.15), Y: 1, Z: between(rng, -0.6, 0.2)}.Mul(pace)
	spin := vec.V{X: between(rng, -1, 1), Y: between(rng, -0.5, 0.5), Z: between(rng, -1, 1)}.Mul(pace / float64(radius))
	return motion.Run(vel, spin, radius, normal)
}

// sampled returns the least distance of a path from a point, and the time at which the
// path first comes within a distance of it. It samples the path and then refines around
// the nearest sample.
func sampled(p *motion.Path, point vec.V, within float64) (least, first float64) {
	gap := func(t float64) float64 { s, _ := p.At(unit.Span(t)); return s.Pos.Sub(point).Norm() }
	least, first = gap(0), math.Inf(1)
	for _, s := range p.Segments() {
		length, steps, best := float64(s.Length), 400, 0
		if s.Phase == motion.Rest {
			length, steps = 0, 1
		}
		at := func(i int) float64 { return float64(s.Begin) + length*float64(i)/float64(steps) }
		for i := range steps + 1 {
			g := gap(at(i))
			if g < gap(at(best)) {
				best = i
			}
			if g < within {
				first = math.Min(first, at(i))
			}
		}
		lo, hi := at(max(0, best-1)), at(min(steps, best+1))
		for range 100 { // ternary search: the distance has one minimum here
			a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
			if gap(a) < gap(b) {
				hi = b
			} else {
				lo = a
			}
		}
		least = math.Min(least, gap((lo+hi)/2))
	}
	return least, first
}

// Clearances and outcomes agree with dense sampling of the path in three dimensions. In a
// narrow gap both blockers may be touched; the first one decides the outcome.
func TestClearancesAgreeWithSampling(t *testing.T) {
	rng := rand.New(rand.NewPCG(27, 28))
	seen := map[contact.Outcome]int{}
	both := map[contact.Outcome]int{}
	for range 1500 {
		path := randomPath(rng)
		gate := gear.Gate{Dist: unit.Length(between(rng, 0.1, 2)), Gap: unit.Length(between(rng, 0, 0.12))}
		pass, err := contact.Pass(&path, gate, radius)
		require.NoError(t, err)
		l, r := contact.Posts(gate, radius)
		left, leftAt := sampled(&path, l, 2*float64(radius))
		right, rightAt := sampled(&path, r, 2*float64(radius))
		left, right = left-2*float64(radius), right-2*float64(radius)
		require.InDelta(t, left, float64(pass.Left), 1e-9)
		require.InDelta(t, right, float64(pass.Right), 1e-9)

		if math.Abs(left) < 1e-6 || math.Abs(right) < 1e-6 || left < 0 && right < 0 && math.Abs(leftAt-rightAt) < 0.002 {
			continue // too close for sampling to decide
		}
		end, _ := path.At(path.Stop())
		want := contact.Clean
		switch {
		case left < 0 && (right >= 0 || leftAt < rightAt):
			want = contact.Left
		case right < 0:
			want = contact.Right
		case end.Pos.Y < float64(gate.Dist):
			want = contact.Short
		}
		require.Equal(t, want, pass.Outcome)
		seen[want]++
		if left < 0 && right < 0 {
			both[want]++
		}
	}
	for _, v := range []contact.Outcome{contact.Clean, contact.Left, contact.Right, contact.Short} {
		assert.Greater(t, seen[v], 20, "%v", v)
	}
	assert.Greater(t, both[contact.Left], 10)
	assert.Greater(t, both[contact.Right], 10)
}

func TestPosts(t *testing.T) {
	l, r := contact.Posts(gear.Gate{Dist: 1, Gap: 0.07}, 0.03)
	assert.InDelta(t, -0.065, l.X, 1e-17)
	assert.InDelta(t, 0.065, r.X, 1e-17)
	assert.Equal(t, 1.0, l.Y)
	assert.Zero(t, l.Z)
	assert.InDelta(t, 0.07, r.Sub(l).Norm()-2*0.03, 1e-16, "the clear gap")
}

func straight(v float64) motion.Path {
	return motion.Run(vec.V{Y: v}, vec.V{X: -v / float64(radius)}, radius, normal)
}

func TestStraightThrough(t *testing.T) {
	path := straight(2)
	gate := gear.Gate{Dist: 30 * unit.Inch, Gap: 2.75 * unit.Inch}
	pass, err := contact.Pass(&path, gate, radius)
	require.NoError(t, err)
	assert.Equal(t, contact.Clean, pass.Outcome)
	// At the gate the ball's centre is w/2 + R from each blocker's centre, which leaves
	// w/2 − R.
	assert.InDelta(t, float64(gate.Gap/2-radius), float64(pass.Left), 1e-12)
	assert.InDelta(t, float64(gate.Gap/2-radius), float64(pass.Right), 1e-12)
}

// A ball that topspin sets in motion speeds up, so its start says little about how near
// it will come.
func TestClearanceOfABallThatSpeedsUp(t *testing.T) {
	path := motion.Run(vec.V{}, vec.V{X: -80}, radius, normal)
	gate := gear.Gate{Dist: 0.08, Gap: 0.12}
	rolling, _ := path.At(path.RollStart())
	require.Greater(t, rolling.Pos.Y, float64(gate.Dist)+0.02, "it is past the gate before it rolls")
	pass, err := contact.Pass(&path, gate, radius)
	require.NoError(t, err)
	assert.InDelta(t, float64(gate.Gap/2-radius), float64(pass.Left), 1e-12)
	assert.InDelta(t, float64(gate.Gap/2-radius), float64(pass.Right), 1e-12)
}

func TestShort(t *testing.T) {
	path := straight(0.3)
	pass, err := contact.Pass(&path, gear.Gate{Dist: 1, Gap: 0.1}, radius)
	require.NoError(t, err)
	assert.Equal(t, contact.Short, pass.Outcome)
	assert.Positive(t, float64(pass.Left))

	// Short of the gate's line but overlapping the blockers: a touch, not short.
	end, _ := path.At(path.Stop())
	pass, err = contact.Pass(&path, gear.Gate{Dist: unit.Length(end.Pos.Y + 0.01), Gap: 0.05}, radius)
	require.NoError(t, err)
	assert.Equal(t, contact.Left, pass.Outcome, "both at once: the left one counts")
	assert.Negative(t, float64(pass.Right))
}

// over returns a flight whose highest point, at the given height, is above the gate's
// line, x to the right of the gate's middle.
func over(gate gear.Gate, x, height float64) motion.Path {
	up := math.Sqrt(2 * unit.Gravity * height)
	time := up / unit.Gravity
	return motion.Run(vec.V{X: x / time, Y: float64(gate.Dist) / time, Z: up}, vec.V{}, radius, normal)
}

// To pass over the blockers where the lanes overlap, the centre has to be √(4R² − (w/2 +
// R − |x|)²) above its resting height: the centres of two touching balls are 2R apart
// (Pythagoras).
func TestHopOverTheBlockers(t *testing.T) {
	for _, x := range []float64{0, 0.005, -0.012} {
		gate := gear.Gate{Dist: 0.6, Gap: 0.05}
		r := float64(radius)
		need := math.Sqrt(4*r*r - math.Pow(float64(gate.Gap)/2+r-math.Abs(x), 2))

		path := over(gate, x, need)
		pass, err := contact.Pass(&path, gate, radius)
		require.NoError(t, err)
		// The path is not perpendicular to the gate, so its nearest point is slightly
		// nearer than its highest.
		assert.InDelta(t, 0, math.Min(float64(pass.Left), float64(pass.Right)), 2e-5)

		path = over(gate, x, need+0.001)
		pass, err = contact.Pass(&path, gate, radius)
		require.NoError(t, err)
		assert.Equal(t, contact.Clean, pass.Outcome)
		flat := motion.Run(vec.V{X: x, Y: float64(gate.Dist)}.Mul(5), vec.V{}, radius, normal)
		pass, err = contact.Pass(&flat, gate, radius)
		require.NoError(t, err)
		assert.NotEqual(t, contact.Clean, pass.Outcome, "on the cloth the same direction does not fit")

		path = over(gate, x, need-0.001)
		pass, err = contact.Pass(&path, gate, radius)
		require.NoError(t, err)
		want := contact.Left
		if x > 0 {
			want = contact.Right
		}
		assert.Equal(t, want, pass.Outcome)
	}
}

func TestRefusals(t *testing.T) {
	path := straight(2)
	_, err := contact.Pass(&path, gear.Gate{Gap: 0.1}, radius)
	assert.ErrorIs(t, err, contact.ErrNoGate)
	_, err = contact.Pass(&path, gear.Gate{Dist: 0.01, Gap: 0.01}, radius)
	assert.ErrorIs(t, err, contact.ErrOverlap)
	pass, err := contact.Pass(&path, gear.Gate{Dist: 0.01, Gap: 2.1 * radius}, radius)
	assert.NoError(t, err)
	assert.Equal(t, contact.Clean, pass.Outcome)
}

// A first touch exactly where two segments of the path meet is not lost between them. One
// blocker stands so that the ball touches it where the slide ends; the other is met
// later.
func TestTouchWhereSegmentsMeet(t *testing.T) {
	rng := rand.New(rand.NewPCG(29, 30))
	for range 3000 {
		path := motion.Run(vec.V{X: between(rng, -0.3, 0.3), Y: between(rng, 1, 3)}, vec.V{Y: between(rng, -60, 60)}, radius, normal)
		s, _ := path.At(path.RollStart())
		// The blockers' centres are 2R from that point, ahead of it on its two sides.
		gate := gear.Gate{Gap: unit.Length(between(rng, 0.001, 0.01))}
		aside := float64(gate.Gap/2+radius) - s.Pos.X
		if ahead := 4*float64(radius*radius) - aside*aside; s.Pos.X > 0.001 && aside > 0 && ahead > 0 {
			gate.Dist = unit.Length(s.Pos.Y + math.Sqrt(ahead))
		} else {
			continue
		}
		pass, err := contact.Pass(&path, gate, radius)
		require.NoError(t, err)
		if pass.Left < 0 && pass.Right < -1e-9 {
			require.Equal(t, contact.Right, pass.Outcome)
		}
	}
}

func ExamplePass() {
	path := motion.Run(vec.V{X: 0.02, Y: 2}, vec.V{}, radius, normal)
	pass, err := contact.Pass(&path, gear.Gate{Dist: 30 * unit.Inch, Gap: 2.75 * unit.Inch}, radius)
	if err != nil {
		fmt.Println(err)
		return
	}
	names := map[contact.Outcome]string{contact.Clean: "clean", contact.Left: "left", contact.Right: "right", contact.Short: "short"}
	fmt.Printf("%s: %.1f mm left, %.1f mm right\n", names[pass.Outcome], pass.Left/unit.Millimetre, pass.Right/unit.Millimetre)
	// Output: right: 14.0 mm left, -1.3 mm right
}
