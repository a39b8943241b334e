package contact_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/contact"
	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

const r = float64(radius)

// collide returns the impact of a ball that moves straight ahead at v on a ball at rest.
// spin is given as surface speed divided by v; cut is the angle of the line of centres to
// the right.
func collide(t *testing.T, v float64, spin vec.V, cut unit.Angle) contact.Impact {
	t.Helper()
	normal, err := contact.Normal(cut, 0, radius)
	require.NoError(t, err)
	hit, err := contact.Collide(motion.State{Vel: vec.V{Y: v}, Spin: spin.Mul(v / r)}, normal, radius)
	require.NoError(t, err)
	return hit
}

func randomSpin(rng *rand.Rand) vec.V {
	return vec.V{X: between(rng, -1.5, 1.5), Y: between(rng, -1.5, 1.5), Z: between(rng, -1.5, 1.5)}
}

// Newton's laws, whatever the friction: momentum is conserved, and so is angular momentum
// about the cue ball's centre, (2/5)mR²ω of each ball plus 2R n̂ × v of the object ball.
// Energy does not grow, and the balls separate at e_b times their approach speed.
func TestConservationLaws(t *testing.T) {
	rng := rand.New(rand.NewPCG(41, 42))
	grips, slips := 0, 0
	for range 10_000 {
		v := 0.05 * math.Pow(300, rng.Float64())
		cue := motion.State{
			Vel:  vec.V{X: between(rng, -1, 1), Y: 1, Z: between(rng, -0.5, 0.5)}.Mul(v),
			Spin: randomSpin(rng).Mul(v / r),
		}
		if rng.IntN(3) == 0 { // hardly any slip, so the balls grip
			cue.Spin = cue.Spin.Mul(0.01)
			cue.Vel.X, cue.Vel.Z = 0.01*cue.Vel.X, 0.01*cue.Vel.Z
		}
		way := unit.Angle(between(rng, -1.3, 1.3))
		if rng.IntN(3) == 0 {
			way *= 0.01
		}
		n, err := contact.Normal(way, r*between(rng, -1.5, 1.5)*float64(rng.IntN(2)), radius)
		require.NoError(t, err)
		hit, err := contact.Collide(cue, n, radius)
		if cue.Vel.Dot(n) <= 0 {
			require.ErrorIs(t, err, contact.ErrThin)
			continue
		}
		require.NoError(t, err)
		a, b := hit.Cue, hit.Object

		require.Less(t, a.Vel.Add(b.Vel).Sub(cue.Vel).Norm(), 1e-14*v)
		turning := a.Spin.Add(b.Spin).Sub(cue.Spin).Mul(0.4 * r * r).Add(n.Mul(2 * r).Cross(b.Vel))
		require.Less(t, turning.Norm(), 1e-14*v)
		require.Less(t, a.Spin.Sub(cue.Spin).Sub(b.Spin).Norm(), 1e-13*v/r, "both balls get the same spin")
		require.InDelta(t, 0, b.Spin.Dot(n), 1e-13*v/r, "nothing turns a ball about the line of centres")

		energy := func(s motion.State) float64 { return s.Vel.Dot(s.Vel)/2 + 0.2*r*r*s.Spin.Dot(s.Spin) }
		require.LessOrEqual(t, energy(a)+energy(b), energy(cue)*(1+1e-14))
		require.InDelta(t, contact.Restitution*cue.Vel.Dot(n), b.Vel.Sub(a.Vel).Dot(n), 1e-14*v)

		// The tangential impulse takes 7/2 of itself from the surface velocity of the cue
		// ball and adds as much to the object ball's, so a seventh of the slip is enough
		// to end it. It never reverses the slip.
		surface := func(s motion.State, at vec.V) vec.V {
			u := s.Vel.Add(s.Spin.Cross(at))
			return u.Sub(n.Mul(u.Dot(n)))
		}
		before := surface(cue, n.Mul(r))
		after := surface(a, n.Mul(r)).Sub(surface(b, n.Mul(-r)))
		if most := contact.Friction(before.Norm()) * b.Vel.Dot(n); before.Norm()/7 < most {
			require.Less(t, after.Norm(), 1e-13*v)
			grips++
		} else {
			require.Less(t, before.Cross(after).Norm(), 1e-13*v*v, "the slip keeps its direction")
			require.GreaterOrEqual(t, before.Dot(after), 0.0)
			require.InDelta(t, before.Norm()-7*most, after.Norm(), 1e-13*v)
			slips++
		}
	}
	assert.Greater(t, grips, 500)
	assert.Greater(t, slips, 5000)
}

// Wallace and Schroeder, Am. J. Phys. 56 (1988) 815, distinguish two regimes for a ball
// without spin that is cut by φ. The slip is v sin φ and the normal impulse (1 + e) v cos
// φ/2. At a small cut the surfaces grip, and the tangential impulse is a seventh of the
// slip:
//
//	tan(throw) = (v sin φ/7) / ((1 + e) v cos φ/2) = 2 tan φ / (7 (1 + e))
//
// At a large cut they slip throughout, and tan(throw) = μ. With sidespin on a straight
// shot, its surface speed ωR takes the place of v sin φ: the throw is 2ωR/(7 (1 + e) v).
// Throw is towards the cue ball's own direction: on a cut to the right, to the left of
// the line of centres.
func TestThrowLimits(t *testing.T) {
	const e = contact.Restitution
	for _, v := range []float64{0.5, 2, 6} {
		for _, cut := range []float64{1e-6, 0.001, -0.01} {
			hit := collide(t, v, vec.V{}, unit.Angle(cut))
			assert.InEpsilon(t, -2*math.Tan(cut)/(7*(1+e)), hit.Throw.Tan(), 1e-9, "cut %v at %v m/s", cut, v)
			hit = collide(t, v, vec.V{Z: cut}, 0)
			assert.InEpsilon(t, -2*cut/(7*(1+e)), hit.Throw.Tan(), 1e-12, "sidespin %v at %v m/s", cut, v)
		}
		for _, cut := range []float64{0.7, -1, 1.4} {
			hit := collide(t, v, vec.V{}, unit.Angle(cut))
			mu := contact.Friction(v * math.Abs(math.Sin(cut)))
			assert.InEpsilon(t, -math.Copysign(mu, cut), hit.Throw.Tan(), 1e-12, "cut %v at %v m/s", cut, v)
			hit = collide(t, v, vec.V{Z: cut}, 0)
			assert.InEpsilon(t, -math.Copysign(contact.Friction(v*math.Abs(cut)), cut), hit.Throw.Tan(), 1e-12, "sidespin %v at %v m/s", cut, v)
		}
		// A rolling cue ball also slips vertically, so only part of the tangential
		// impulse is horizontal.
		hit := collide(t, v, vec.V{X: -1}, 0.5)
		across, along := math.Sincos(0.5)
		assert.InEpsilon(t, -contact.Friction(v)*across, hit.Throw.Tan(), 1e-12)
		assert.InEpsilon(t, -contact.Friction(v)*along*(1+e)/2*v*along, hit.Object.Vel.Z, 1e-12)
	}
	assert.InDelta(t, 0.118, contact.Friction(0), 1e-3, "the fit at zero slip")
	assert.InDelta(t, 0.00995, contact.Friction(20), 1e-9)
}

// Throw is the angle in plan from the line of centres to the object ball's direction.
func TestThrowIsWhereTheObjectBallGoes(t *testing.T) {
	rng := rand.New(rand.NewPCG(43, 44))
	for range 1000 {
		cut := unit.Angle(between(rng, -1.3, 1.3))
		hit := collide(t, between(rng, 0.2, 8), randomSpin(rng), cut)
		require.InDelta(t, float64(cut+hit.Throw), float64(motion.Bearing(hit.Object.Vel)), 1e-14)
	}
}

// That holds for a ball hit from above too, in every direction.
func TestThrowFromAbove(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 2000 {
		way := unit.Angle(between(rng, -3, 3))
		n, err := contact.Normal(way, r*between(rng, 0, 1.5), radius)
		require.NoError(t, err)
		v := vec.V{X: way.Sin(), Y: way.Cos(), Z: between(rng, -0.3, 0.3)}.Mul(3)
		hit, err := contact.Collide(motion.State{Vel: v, Spin: randomSpin(rng).Mul(3 / r)}, n, radius)
		require.NoError(t, err)
		goes := unit.Angle(math.Atan2(hit.Object.Vel.X, hit.Object.Vel.Y))
		require.InDelta(t, 0, float64((goes - way - hit.Throw).Normalized()), 1e-12)
	}
}

// Common practice, no source: on a straight shot right english throws the object ball to
// the left, and for the same ratio of spin to speed a harder shot throws less.
func TestEnglishThrows(t *testing.T) {
	last := math.Inf(1)
	for _, v := range []float64{0.5, 1, 2, 4, 8} {
		right, left := collide(t, v, vec.V{Z: 0.8}, 0), collide(t, v, vec.V{Z: -0.8}, 0)
		assert.Negative(t, float64(right.Throw))
		assert.Equal(t, -right.Throw, left.Throw)
		assert.Negative(t, right.Object.Spin.Z, "and it gives the object ball left english, as one gear turns another")
		assert.Less(t, math.Abs(float64(right.Throw)), last)
		last = math.Abs(float64(right.Throw))
	}
}

// Common practice, no source: a certain amount of outside english makes the balls turn on
// each other like gears, without throw. On a cut by φ the cue ball's surface at the
// contact moves at −v sin φ − ω_z R to the right of the line of centres, so gearing needs
// ω_z R = −v sin φ, left english on a cut to the right. With less english the ball is
// thrown as by a plain cut; with more it is thrown the other way.
func TestGearing(t *testing.T) {
	for _, cut := range []float64{0.2, 0.6, 1.2, -0.4} {
		gear := -math.Sin(cut)
		for _, v := range []float64{0.5, 3} {
			assert.InDelta(t, 0, float64(collide(t, v, vec.V{Z: gear}, unit.Angle(cut)).Throw), 1e-15)
			assert.InDelta(t, 0, collide(t, v, vec.V{Z: gear}, unit.Angle(cut)).Object.Spin.Norm(), 1e-12)
			assert.Negative(t, cut*float64(collide(t, v, vec.V{Z: gear * 0.999}, unit.Angle(cut)).Throw), "cut %v", cut)
			assert.Positive(t, cut*float64(collide(t, v, vec.V{Z: gear * 1.001}, unit.Angle(cut)).Throw), "cut %v", cut)
		}
	}
}

// Common practice, no source: the throw of a stun shot grows with the cut up to about a
// half-ball hit, 30°, and falls beyond.
func TestThrowOverTheCut(t *testing.T) {
	throw := func(cut unit.Angle) float64 {
		return math.Abs(float64(collide(t, 1.5, vec.V{}, cut*unit.Degree).Throw))
	}
	most := unit.Angle(0)
	for cut := unit.Angle(1); cut < 90; cut++ {
		if throw(cut) > throw(most) {
			most = cut
		}
	}
	assert.InDelta(t, 25, float64(most), 10)
	for cut := unit.Angle(1); cut < 89; cut++ {
		if cut < most {
			assert.Less(t, throw(cut), throw(cut+1))
		} else {
			assert.Greater(t, throw(cut), throw(cut+1))
		}
	}
	assert.InDelta(t, 4, throw(most)*180/math.Pi, 3, "a few degrees")
}

// The front of a rolling ball moves down. It pushes the object ball down and gives it
// backspin, and is itself pushed up. So the cue ball hops, and the object ball bounces
// off the cloth at once.
func TestRollingHit(t *testing.T) {
	hit := collide(t, 2, vec.V{X: -1}, 0)
	assert.Negative(t, hit.Object.Vel.Z)
	assert.Positive(t, hit.Object.Spin.X, "backspin: a roll has it negative")
	assert.Equal(t, -hit.Object.Vel.Z, hit.Cue.Vel.Z)
	assert.Negative(t, hit.Cue.Spin.X, "it keeps nearly all its topspin")
	assert.InDelta(t, 0, float64(hit.Throw), 1e-15)

	var object, cue motion.Path
	object.Follow(hit.Object, radius, normal)
	start, _ := object.At(0)
	assert.InDelta(t, -normal.Rebound*hit.Object.Vel.Z, start.Vel.Z, 1e-15)
	// The friction impulse of the cloth is μ N, against a forward slip.
	push := -(1 + normal.Rebound) * hit.Object.Vel.Z
	assert.InDelta(t, hit.Object.Vel.Y-normal.Slide*push, start.Vel.Y, 1e-12)
	cue.Follow(hit.Cue, radius, normal)
	_, phase := cue.At(0)
	assert.Equal(t, motion.Fly, phase)
	end, _ := cue.At(cue.Stop())
	assert.Greater(t, end.Pos.Y, 0.1, "it follows on")
}

// after returns the final direction of the cue ball, once it rolls.
func after(hit contact.Impact) unit.Angle {
	var path motion.Path
	path.Follow(hit.Cue, radius, normal)
	rolling, _ := path.At(path.RollStart())
	return motion.Bearing(rolling.Vel)
}

// Common practice, no source: after a stun shot the balls separate at a right angle. Here
// the angle is less. Of its speed along the line of centres, v cos φ, the cue ball keeps
// the share (1 − e_b)/2 = 1/40, which turns it by about cot φ/40, 5.3° at a cut of 15°.
// The tangential impulse turns each ball by up to the throw, some 5°.
func TestNinetyDegrees(t *testing.T) {
	for _, cut := range []float64{15, 30, 45, 60, 75} {
		hit := collide(t, 1.5, vec.V{}, unit.Angle(cut)*unit.Degree)
		apart := float64((motion.Bearing(hit.Object.Vel) - after(hit)) / unit.Degree)
		assert.Less(t, apart, 90.0, "cut %v", cut)
		assert.Greater(t, apart, 78.0, "cut %v", cut)
	}
}

// Common practice, no source: a rolling cue ball that meets between a quarter
// and three quarters of the object ball turns by about 30°. Without losses it
// keeps v sin φ across the line of centres and all its spin, and ends with
// v' = (5/7) v sin φ t̂ + (2/7) v: 33.7° at half a ball, φ = 30°. Losses of a
// twentieth of the push and some degrees of throw move that by less than 5°.
func TestThirtyDegrees(t *testing.T) {
	for _, cut := range []float64{15, 20, 30, 40, 48} {
		sin, cos := math.Sincos(cut * math.Pi / 180)
		ideal := math.Atan2(5*sin*cos, 5*sin*sin+2) * 180 / math.Pi
		hit := collide(t, 2, vec.V{X: -1}, unit.Angle(cut)*unit.Degree)
		assert.InDelta(t, -ideal, float64(after(hit)/unit.Degree), 5, "cut %v", cut)
		assert.InDelta(t, -30, float64(after(hit)/unit.Degree), 6, "cut %v", cut)
	}
}

func TestLineOfCentres(t *testing.T) {
	rng := rand.New(rand.NewPCG(45, 46))
	for range 1000 {
		way, rise := unit.Angle(between(rng, -3, 3)), 2*r*between(rng, -0.999, 0.999)
		n, err := contact.Normal(way, rise, radius)
		require.NoError(t, err)
		require.InDelta(t, 1, n.Norm(), 1e-15)
		require.InDelta(t, float64(way), float64(motion.Bearing(n)), 1e-14)
		require.InDelta(t, -rise, 2*r*n.Z, 1e-16, "down from the higher cue ball to the object ball")
	}
	for _, rise := range []float64{2 * r, 1, math.NaN()} {
		_, err := contact.Normal(0, rise, radius)
		assert.ErrorIs(t, err, contact.ErrOver)
	}
}

func TestTooThin(t *testing.T) {
	for _, v := range []vec.V{{X: 1}, {Y: -1}, {}, {Y: math.NaN()}} {
		_, err := contact.Collide(motion.State{Vel: v}, vec.V{Y: 1}, radius)
		assert.ErrorIs(t, err, contact.ErrThin)
	}
}

// The first touch against a close look at the path.
func TestMeetAgreesWithSampling(t *testing.T) {
	rng := rand.New(rand.NewPCG(47, 48))
	met, missed, air := 0, 0, 0
	for range 4000 {
		path := randomPath(rng)
		centre := vec.V{X: between(rng, -0.2, 0.2), Y: between(rng, 0.1, 2)}
		least, first := sampled(&path, centre, 2*r)
		when, err := contact.Meet(&path, centre, radius)
		if math.Abs(least-2*r) < 1e-6 {
			continue // too near for sampling to tell
		}
		if least > 2*r {
			require.ErrorIs(t, err, contact.ErrMisses)
			missed++
			continue
		}
		require.NoError(t, err)
		at, _ := path.At(when)
		require.InDelta(t, 2*r, at.Pos.Sub(centre).Norm(), 1e-10)
		require.LessOrEqual(t, float64(when), first+1e-12, "no earlier point of the path touches")
		if earlier, _ := path.At(when - 1e-7); when > 1e-7 {
			require.Greater(t, earlier.Pos.Sub(centre).Norm(), 2*r)
		}
		met++
		if at.Pos.Z > 0 {
			air++
		}
	}
	assert.Greater(t, met, 500)
	assert.Greater(t, missed, 500)
	assert.Greater(t, air, 100)
}

func TestMeetStraight(t *testing.T) {
	path := straight(2)
	when, err := contact.Meet(&path, vec.V{Y: 0.5}, radius)
	require.NoError(t, err)
	// Rolling from the start it loses μ_r g: 0.5 − 2R = 2t − μ_r g t²/2.
	slow := normal.Roll * unit.Gravity
	assert.InDelta(t, (2-math.Sqrt(4-2*slow*(0.5-2*r)))/slow, float64(when), 1e-12)
	_, err = contact.Meet(&path, vec.V{Y: -0.5}, radius)
	assert.ErrorIs(t, err, contact.ErrMisses)
}
