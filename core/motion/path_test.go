package motion_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

var (
	ball   = gear.Ball{Radius: 1.125 * unit.Inch, Mass: 170 * unit.Gram}
	normal = gear.Cloth{Slide: 0.2, Roll: 0.01, SpinDecay: 10, Rebound: 0.5}
)

func between(rng *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }

func randomCloth(rng *rand.Rand) gear.Cloth {
	return gear.Cloth{
		Slide: between(rng, 0.05, 0.6), Roll: between(rng, 0.002, 0.05),
		SpinDecay: unit.SpinRate(between(rng, 0, 60)), Rebound: between(rng, 0, 0.8),
	}
}

// randomPath returns the path of a ball released with a random velocity and spin. About
// half of them fly.
func randomPath(rng *rand.Rand) (motion.Path, gear.Cloth) {
	cloth := randomCloth(rng)
	pace := 0.2 * math.Pow(60, rng.Float64())
	vel := vec.V{X: between(rng, -1, 1), Y: between(rng, -1, 1), Z: math.Min(0.5, between(rng, -1, 1))}.Mul(pace)
	spin := vec.V{X: between(rng, -1, 1), Y: between(rng, -1, 1), Z: between(rng, -1, 1)}.Mul(1.5 * pace / float64(ball.Radius))
	return motion.Run(vel, spin, ball.Radius, cloth), cloth
}

// slip returns the velocity of the ball's lowest point relative to the bed.
func slip(s motion.State) vec.V {
	return s.Vel.Add(s.Spin.Cross(vec.V{Z: -float64(ball.Radius)})).Plan()
}

// Coriolis 1835, for any offset, elevation and cloth, bounces included, in the form that
// holds with an end mass too. Let the tip push along p = d̂ − t n̂, t = tan α (t = 0
// without end mass), with the impulse P = J p at the contact r_c. Then v = P/m and ω =
// (5/2)(r_c × P)/(mR²), so the slip u = v + ω × (−R ẑ) is
//
//	u = P_h/m + (5/(2mR)) [r_ch P_z − P_h r_cz]
//
// Every friction impulse of the cloth changes v by dv and u by (7/2) dv, so v − (2/7)u
// never changes. Once the ball rolls, u = 0 and this is its velocity:
//
//	v = (5/(7mR)) [P_h (R + r_cz) − r_ch P_z] = −(5/(7mR)) P_z A_h
//
// with A = r_c − p (R + r_cz)/p_z, where the line through the contact along p meets the
// cloth. −P_z = J (sin θ + (h/ρ) t cos θ): the ball runs parallel to the line from its
// resting point to A, at (5/7)(J/m)(sin θ + (h/ρ) t cos θ) |OA|/R.
func TestCoriolis(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 16))
	tested, hopped, r := 0, 0, float64(ball.Radius)
	for tested < 3000 {
		c := gear.Cue{
			Mass:  540 * unit.Gram,
			Tip:   gear.Tip{Dome: 10.6 * unit.Millimetre, Width: 1, Restitution: 0.75, Friction: 1e9},
			Pivot: unit.Length(between(rng, 6, 60)) * unit.Inch, PivotSpin: 0.5,
		}
		if tested%2 == 0 {
			c.Pivot = 1e18 // an end mass that vanishes in a float64
		}
		at := strike.Contact{Side: between(rng, -0.7, 0.7), Height: between(rng, -0.6, 0.7)}
		line := strike.Line{Heading: unit.Angle(between(rng, -0.5, 0.5)), Elevation: unit.Angle(between(rng, 0.02, 1.48))}
		hit, err := strike.Prepare(ball, c, at)
		if err != nil {
			continue
		}
		tested++
		launch := hit.At(line, unit.Speed(between(rng, 0.3, 12)))
		path := motion.Run(launch.Vel, launch.Spin, ball.Radius, randomCloth(rng))

		sd, cd := math.Sincos(float64(line.Heading))
		st, ct := math.Sincos(float64(line.Elevation))
		dir, side, height := vec.V{X: sd * ct, Y: cd * ct, Z: -st}, vec.V{X: cd, Y: -sd}, vec.V{X: sd * st, Y: cd * st, Z: ct}
		rho := at.Offset()
		n := side.Mul(at.Side).Add(height.Mul(at.Height)).Mul(1 / rho)
		contact := n.Mul(rho).Sub(dir.Mul(math.Sqrt(1 - rho*rho))).Mul(r)
		push := launch.Vel.Dot(dir) // J/m
		tan := -launch.Vel.Dot(n) / push
		p := dir.Sub(n.Mul(tan))
		a := contact.Sub(p.Mul((r + contact.Z) / p.Z))
		want := a.Plan().Mul(5.0 / 7 * push * (st + at.Height/rho*tan*ct) / r)

		for _, s := range path.Segments() {
			if s.Phase == motion.Fly {
				hopped++
				break
			}
		}
		rolling, _ := path.At(path.RollStart())
		scale := launch.Vel.Norm() * (1 + a.Norm()/r*math.Abs(p.Z))
		require.Less(t, rolling.Vel.Sub(want).Norm(), 1e-12*scale, "%+v %+v", at, line)
	}
	assert.Greater(t, hopped, 500)
}

// The cloth does not change v − (2/7)u, neither at a landing nor in a slide.
func TestTheClothLeavesTheRollingVelocityAlone(t *testing.T) {
	rng := rand.New(rand.NewPCG(17, 18))
	for range 2000 {
		path, _ := randomPath(rng)
		for _, s := range path.Segments() {
			if s.Phase >= motion.Roll {
				break
			}
			begin, _ := path.At(s.Begin)
			end, _ := path.At(s.Begin + s.Length)
			was := begin.Vel.Plan().Sub(slip(begin).Mul(2.0 / 7))
			is := end.Vel.Plan().Sub(slip(end).Mul(2.0 / 7))
			require.Less(t, is.Sub(was).Norm(), 1e-12*(1+begin.Vel.Norm()))
		}
	}
}

// Coriolis 1835 and every mechanics text: a ball released without spin at v₀ begins to
// roll, at 5/7 of its speed, after the time 2v₀/(7μg) and the distance 12v₀²/(49μg).
func TestSlideFromRest(t *testing.T) {
	for _, v := range []float64{0.3, 2, 11} {
		path := motion.Run(vec.V{Y: v}, vec.V{}, ball.Radius, normal)
		when := path.RollStart()
		assert.InDelta(t, 2*v/(7*0.2*unit.Gravity), float64(when), 1e-13)
		s, phase := path.At(when)
		assert.Equal(t, motion.Roll, phase)
		assert.InDelta(t, 5.0/7*v, s.Vel.Y, 1e-14*v)
		assert.InDelta(t, 12*v*v/(49*0.2*unit.Gravity), s.Pos.Y, 1e-13*v*v)
		assert.InDelta(t, 0, slip(s).Norm(), 1e-14)
	}
}

// Halliday, Resnick and Walker, Fundamentals of Physics, the bowling ball (from memory):
// 8.5 m/s, R = 11 cm, μ = 0.21; it rolls after 1.2 s and 8.6 m, at 6.1 m/s.
func TestBowlingBall(t *testing.T) {
	path := motion.Run(vec.V{Y: 8.5}, vec.V{}, 0.11, gear.Cloth{Slide: 0.21, Roll: 0.01})
	s, _ := path.At(path.RollStart())
	assert.InDelta(t, 1.2, float64(path.RollStart()), 0.05)
	assert.InDelta(t, 8.6, s.Pos.Y, 0.05)
	assert.InDelta(t, 6.1, s.Vel.Y, 0.05)
}

// A rolling ball stops after the time v/(μg) and the distance v²/(2μg): uniform
// deceleration.
func TestRollToRest(t *testing.T) {
	path := motion.Run(vec.V{Y: 1.5}, vec.V{X: -1.5 / float64(ball.Radius)}, ball.Radius, normal)
	assert.InDelta(t, 0, float64(path.RollStart()), 1e-15)
	assert.InDelta(t, 1.5/(0.01*unit.Gravity), float64(path.Stop()), 1e-12)
	s, phase := path.At(path.Stop() + 1)
	assert.Equal(t, motion.Rest, phase)
	assert.InDelta(t, 1.5*1.5/(2*0.01*unit.Gravity), s.Pos.Y, 1e-12)
	assert.Zero(t, s.Vel)
}

func TestSidespinDecaysOnTheClothAndKeepsInTheAir(t *testing.T) {
	path := motion.Run(vec.V{Y: 3, Z: -2}, vec.V{Z: 40}, ball.Radius, normal)
	landed := path.Segments()[0].Length
	s, _ := path.At(landed)
	assert.Equal(t, 40.0, s.Spin.Z)

	path = motion.Run(vec.V{}, vec.V{Z: -40}, ball.Radius, normal)
	assert.Zero(t, path.Stop(), "a ball that only spins is at rest")
	assert.Equal(t, path.Stop(), path.RollStart())
	s, phase := path.At(1)
	assert.Equal(t, motion.Rest, phase)
	assert.Equal(t, -30.0, s.Spin.Z)
	s, _ = path.At(5)
	assert.Zero(t, s.Spin.Z)
}

func TestSlowHopsStayDown(t *testing.T) {
	flies := func(z float64) bool {
		path := motion.Run(vec.V{Y: 1, Z: z}, vec.V{}, ball.Radius, normal)
		s, phase := path.At(0)
		if phase != motion.Fly {
			assert.Zero(t, s.Vel.Z)
		}
		return phase == motion.Fly
	}
	assert.False(t, flies(0))
	assert.False(t, flies(0.01))
	assert.True(t, flies(0.0101))
	assert.False(t, flies(-0.02), "half of the speed comes back")
	assert.True(t, flies(-0.0203))
}

// Straight up at 40 mph, the most that a link allows, on the liveliest bed: 34 hops, each
// at 0.8 of the speed of the one before, until one is below 0.01 m/s.
func TestNumberOfHops(t *testing.T) {
	cloth, up := normal, float64(40*unit.MilePerHour)
	cloth.Rebound = 0.8
	path := motion.Run(vec.V{Z: up}, vec.V{}, ball.Radius, cloth)
	want := math.Ceil(math.Log(up/0.01) / math.Log(1/0.8))
	assert.Equal(t, 34.0, want)
	assert.Len(t, path.Segments(), 34+1, "and rest")
}

// A slip whose square underflows to zero counts as no slip.
func TestVanishingSlip(t *testing.T) {
	path := motion.Run(vec.V{X: 1e-200, Y: 1}, vec.V{X: -32}, 1.0/32, normal)
	s, phase := path.At(1)
	assert.Equal(t, motion.Roll, phase)
	assert.InDelta(t, 1-0.01*unit.Gravity/2, s.Pos.Y, 1e-15)
	assert.InDelta(t, 0, s.Pos.X, 1e-15)
}

// Even straight down at more than any link allows, on a bed livelier than any, the hops
// end.
func TestEveryPathEnds(t *testing.T) {
	for _, rebound := range []float64{0.8, 0.99, 1} {
		cloth := normal
		cloth.Rebound = rebound
		path := motion.Run(vec.V{X: 0.1, Z: -60}, vec.V{Y: 30, Z: 5}, ball.Radius, cloth)
		last := path.Segments()[len(path.Segments())-1]
		assert.Equal(t, motion.Rest, last.Phase)
		assert.False(t, math.IsInf(float64(path.Stop()), 0))
	}
}

func energy(s motion.State) float64 {
	r := float64(ball.Radius)
	return s.Vel.Dot(s.Vel)/2 + 0.2*r*r*s.Spin.Dot(s.Spin) + unit.Gravity*s.Pos.Z
}

// Energy never grows and the position has no jumps, over the whole path and across its
// landings.
func TestEnergyNeverGrowsAndThePathIsContinuous(t *testing.T) {
	rng := rand.New(rand.NewPCG(19, 20))
	for range 1000 {
		path, _ := randomPath(rng)
		before, _ := path.At(0)
		last := energy(before)
		for _, s := range path.Segments() {
			length := float64(s.Length)
			if s.Phase == motion.Rest {
				length = 3
			}
			for i := range 41 {
				when := s.Begin + unit.Span(length*float64(i)/40)
				now, _ := path.At(when)
				require.LessOrEqual(t, energy(now), last*(1+1e-12)+1e-15)
				require.GreaterOrEqual(t, now.Pos.Z, -1e-13)
				if i == 0 {
					require.Less(t, now.Pos.Sub(before.Pos).Norm(), 1e-9*(1+now.Pos.Norm()))
				}
				last, before = energy(now), now
			}
		}
	}
}

func TestBeforeTheHitItLiesAtTheStart(t *testing.T) {
	path := motion.Run(vec.V{Y: 2}, vec.V{}, ball.Radius, normal)
	s, _ := path.At(-1)
	assert.Zero(t, s.Pos)
}

// The two curves that a path can cross, each with its equation.
var curves = []struct {
	name string
	find func(*motion.Path, unit.Length) (unit.Span, error)
	past func(vec.V) float64
}{
	{"line", (*motion.Path).AtLine, func(p vec.V) float64 { return p.Y }},
	{"circle", (*motion.Path).AtCircle, func(p vec.V) float64 { return p.Plan().Norm() }},
}

// The point found lies on the curve and no sample before it lies beyond. If no point is
// found, no sample lies beyond.
func TestCrossingsAreTheFirst(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 22))
	for _, c := range curves {
		found, none := 0, 0
		for range 400 {
			path, _ := randomPath(rng)
			d := 0.05 * math.Pow(100, rng.Float64())
			when, err := c.find(&path, unit.Length(d))
			until := float64(path.Stop())
			if err == nil {
				found++
				s, _ := path.At(when)
				require.InDelta(t, d, c.past(s.Pos), 1e-12*(1+d), c.name)
				until = float64(when)
			} else {
				require.ErrorIs(t, err, motion.ErrStops)
				none++
			}
			for i := range 1000 {
				s, _ := path.At(unit.Span(until * float64(i) / 1000))
				require.Less(t, c.past(s.Pos), d+1e-12*(1+d), c.name)
			}
		}
		assert.Greater(t, found, 100, c.name)
		assert.Greater(t, none, 50, c.name)
	}
}

// A crossing exactly where two segments of the path meet is not lost between them.
func TestCrossingsWhereSegmentsMeet(t *testing.T) {
	rng := rand.New(rand.NewPCG(23, 24))
	for range 3000 {
		path, _ := randomPath(rng)
		for _, s := range path.Segments()[1:] {
			if s.Phase == motion.Rest || s.From.Vel.Dot(s.From.Pos.Plan()) < 0.01 {
				continue
			}
			when, err := path.AtCircle(unit.Length(s.From.Pos.Plan().Norm()))
			require.NoError(t, err)
			require.LessOrEqual(t, float64(when), float64(s.Begin)+1e-9)
			if s.From.Pos.Y > 0 && s.From.Vel.Y > 0.01 {
				when, err = path.AtLine(unit.Length(s.From.Pos.Y))
				require.NoError(t, err)
				require.LessOrEqual(t, float64(when), float64(s.Begin)+1e-9)
			}
		}
	}
}

func TestBearingIsPositiveToTheRight(t *testing.T) {
	assert.InDelta(t, math.Pi/4, float64(motion.Bearing(vec.V{X: 1, Y: 1})), 1e-15)
	assert.InDelta(t, -math.Pi/4, float64(motion.Bearing(vec.V{X: -1, Y: 1})), 1e-15)
	assert.InDelta(t, math.Pi, float64(motion.Bearing(vec.V{Y: -1})), 1e-15)
}

func TestDistanceSquared(t *testing.T) {
	rng := rand.New(rand.NewPCG(25, 26))
	point := vec.V{X: 0.1, Y: 0.7, Z: -0.2}
	for range 200 {
		path, _ := randomPath(rng)
		for _, s := range path.Segments() {
			if s.Phase == motion.Rest {
				break
			}
			whole, plan := s.DistanceSquared(point, vec.V{X: 1, Y: 1, Z: 1}), s.DistanceSquared(point, vec.V{X: 1, Y: 1})
			at := float64(s.Length) * rng.Float64()
			now, _ := path.At(s.Begin + unit.Span(at))
			gap := now.Pos.Sub(point)
			require.InEpsilon(t, gap.Dot(gap), whole.At(at), 1e-9)
			require.InEpsilon(t, gap.Plan().Dot(gap.Plan()), plan.At(at), 1e-9)
		}
	}
}

func ExampleRun() {
	cloth := gear.Cloth{Slide: 0.2, Roll: 0.01, SpinDecay: 10, Rebound: 0.5}
	path := motion.Run(vec.V{Y: 2}, vec.V{}, 1.125*unit.Inch, cloth)
	rolls, _ := path.At(path.RollStart())
	fmt.Printf("rolls after %.3f s and %.3f m at %.3f m/s\n", path.RollStart(), rolls.Pos.Y, rolls.Vel.Y)
	when, err := path.AtLine(1.5)
	fmt.Printf("1.5 m away after %.2f s %v\n", when, err)
	_, err = path.AtLine(20)
	fmt.Println(err)
	// Output:
	// rolls after 0.291 s and 0.499 m at 1.429 m/s
	// 1.5 m away after 1.01 s <nil>
	// the ball stops before it gets there
}
