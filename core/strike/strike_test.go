package strike_test

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/gear"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

var (
	ball = gear.Ball{Radius: 1.125 * unit.Inch, Mass: 170 * unit.Gram}
	tip  = gear.Tip{Dome: 10.6 * unit.Millimetre, Width: 13 * unit.Millimetre, Restitution: 0.75, Friction: 0.6}

	// wide never slips and has no edge, so it can reach any offset.
	wide = gear.Tip{Dome: 10 * unit.Millimetre, Width: unit.Metre, Restitution: 0.75, Friction: 1e9}
)

// cue returns a cue of the usual mass with a natural pivot length at half a radius.
func cue(pivot unit.Length, tip gear.Tip) gear.Cue {
	return gear.Cue{Mass: 540 * unit.Gram, Tip: tip, Pivot: pivot, PivotSpin: 0.5}
}

// rigid is a pivot length so great that squirt vanishes in a float64.
const rigid = unit.Length(1e18)

func prepare(t *testing.T, b gear.Ball, c gear.Cue, at strike.Contact) *strike.Hit {
	t.Helper()
	hit, err := strike.Prepare(b, c, at)
	require.NoError(t, err)
	return &hit
}

// The same hits solved by NumPy as rigid-body mechanics, one linear system each.
// testdata/strike has the results and the script.
func TestHitsAgreeWithTheLinearSystem(t *testing.T) {
	text, err := os.ReadFile("../../testdata/strike/strike.json")
	require.NoError(t, err)
	var data struct {
		Cases []struct {
			Side, Height, Heading, Elevation float64
			Cue                              float64    `json:"V"`
			CueMass                          unit.Mass  `json:"cue_mass"`
			BallMass                         unit.Mass  `json:"ball_mass"`
			EndMass                          unit.Mass  `json:"end_mass"`
			Radius                           float64    `json:"R"`
			Restitution                      float64    `json:"e"`
			Vel                              [3]float64 `json:"v"`
			Spin                             [3]float64 `json:"w"`
		}
	}
	require.NoError(t, json.Unmarshal(text, &data))
	require.Len(t, data.Cases, 200)
	for i, c := range data.Cases {
		b := gear.Ball{Radius: unit.Length(c.Radius), Mass: c.BallMass}
		stick := gear.Cue{Mass: c.CueMass, Tip: wide, Pivot: rigid, PivotSpin: 0.5}
		stick.Tip.Restitution = c.Restitution
		if c.EndMass > 0 {
			stick.Pivot = strike.NaturalPivot(0.5, float64(b.Mass/c.EndMass), b, wide)
		}
		hit := prepare(t, b, stick, strike.Contact{Side: c.Side, Height: c.Height})
		assert.InDelta(t, float64(c.EndMass), float64(hit.EndMass()), 1e-12, "case %d", i)

		got := hit.At(strike.Line{Heading: unit.Angle(c.Heading), Elevation: unit.Angle(c.Elevation)}, unit.Speed(c.Cue))
		v := vec.V{X: c.Vel[0], Y: c.Vel[1], Z: c.Vel[2]}
		w := vec.V{X: c.Spin[0], Y: c.Spin[1], Z: c.Spin[2]}
		assert.Less(t, got.Vel.Sub(v).Norm(), 2e-13*v.Norm(), "case %d", i)
		assert.Less(t, got.Spin.Sub(w).Norm()*c.Radius, 2e-13*v.Norm(), "case %d", i)
		assert.InDelta(t, v.Norm(), float64(hit.BallSpeed(unit.Speed(c.Cue))), 2e-13*v.Norm())
		assert.InDelta(t, c.Cue, float64(hit.CueSpeed(unit.Speed(v.Norm()))), 2e-13*c.Cue)
	}
}

// A random is a hit with random parameters and the vectors it consists of.
type random struct {
	ball     gear.Ball
	cue      gear.Cue
	at       strike.Contact
	line     strike.Line
	speed    unit.Speed
	hit      strike.Hit
	launch   strike.Launch
	dir, arm vec.V // along the cue; from the ball's centre to the contact, in metres
}

func randomHit(rng *rand.Rand) random {
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	for {
		r := random{
			ball: gear.Ball{Radius: unit.Length(between(0.024, 0.032)), Mass: unit.Mass(between(0.12, 0.25))},
			cue: gear.Cue{
				Mass:  unit.Mass(between(0.3, 0.8)),
				Tip:   gear.Tip{Dome: unit.Length(between(0.005, 0.02)), Width: 1, Restitution: between(0.5, 0.95), Friction: 1e9},
				Pivot: unit.Length(between(5, 60)) * unit.Inch, PivotSpin: between(0.1, 0.6),
			},
			at:    strike.Contact{Side: between(-0.8, 0.8), Height: between(-0.8, 0.8)},
			line:  strike.Line{Heading: unit.Angle(between(-0.5, 0.5)), Elevation: unit.Angle(between(0, 1.48))},
			speed: unit.Speed(between(0.2, 15)),
		}
		hit, err := strike.Prepare(r.ball, r.cue, r.at)
		if err != nil || r.at.Offset() > 0.85 {
			continue
		}
		r.hit, r.launch = hit, hit.At(r.line, r.speed)
		sd, cd := math.Sincos(float64(r.line.Heading))
		st, ct := math.Sincos(float64(r.line.Elevation))
		r.dir = vec.V{X: sd * ct, Y: cd * ct, Z: -st}
		side, height := vec.V{X: cd, Y: -sd}, vec.V{X: sd * st, Y: cd * st, Z: ct}
		rho := r.at.Offset()
		r.arm = side.Mul(r.at.Side).Add(height.Mul(r.at.Height)).Sub(r.dir.Mul(math.Sqrt(1 - rho*rho))).Mul(float64(r.ball.Radius))
		return r
	}
}

// Momentum passes from the cue to the ball: along the cue from its whole mass, across it
// from its end mass, which ends at the contact point's velocity. The gap between tip and
// contact point opens at e times the speed at which it closed. Energy never grows: the
// loss is the impulse along the cue times half the speed that the gap has lost, as in any
// impact.
func TestMomentumAndEnergyAtTheHit(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for range 5000 {
		r := randomHit(rng)
		m, M, end, v0 := float64(r.ball.Mass), float64(r.cue.Mass), float64(r.hit.EndMass()), float64(r.speed)
		v := r.launch.Vel
		point := v.Add(r.launch.Spin.Cross(r.arm)) // velocity of the contact point
		along := v.Dot(r.dir)
		across := v.Sub(r.dir.Mul(along))
		pointAlong := point.Dot(r.dir)
		pointAcross := point.Sub(r.dir.Mul(pointAlong))

		after := v0 - m*along/M // velocity of the cue afterwards
		assert.InDelta(t, r.cue.Tip.Restitution*v0, pointAlong-after, 1e-12*v0)
		assert.Less(t, across.Mul(m).Add(pointAcross.Mul(end)).Norm(), 1e-13*m*v.Norm())

		inertia := 0.4 * m * float64(r.ball.Radius*r.ball.Radius)
		energy := m*v.Dot(v)/2 + inertia*r.launch.Spin.Dot(r.launch.Spin)/2 + M*after*after/2 + end*pointAcross.Dot(pointAcross)/2
		before := M * v0 * v0 / 2
		assert.InDelta(t, before, energy+m*along*(v0-(pointAlong-after))/2, 1e-12*before)
		assert.Less(t, energy, before)
	}
}

// ω|R/|v| = (5/2) sin(β − α), and squirt is the heading minus the plan angle of the ball. Both are computed from the vectors here.
func TestSpinAndSquirtFromTheVectors(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	for range 5000 {
		r := randomHit(rng)
		v := r.launch.Vel
		ratio := r.launch.Spin.Norm() * float64(r.ball.Radius) / v.Norm()
		alpha := math.Acos(math.Min(1, v.Dot(r.dir)/v.Norm()))
		assert.InDelta(t, 2.5*math.Sin(math.Asin(r.at.Offset())-alpha), ratio, 1e-7) // acos is inaccurate near 1
		assert.InDelta(t, r.hit.SpinRatio(), ratio, 1e-12)

		squirt := math.Remainder(float64(r.line.Heading)-math.Atan2(v.X, v.Y), 2*math.Pi)
		assert.InDelta(t, squirt, float64(r.launch.Squirt), 1e-11)
		assert.InDelta(t, squirt, float64(r.hit.Squirt(r.line.Elevation)), 1e-11)
	}
}

func TestSquirtHasTheSignOfTheSide(t *testing.T) {
	right := prepare(t, ball, cue(12*unit.Inch, tip), strike.Contact{Side: 0.4})
	left := prepare(t, ball, cue(12*unit.Inch, tip), strike.Contact{Side: -0.4})
	assert.Positive(t, float64(right.Squirt(0)))
	assert.Equal(t, right.Squirt(0), -left.Squirt(0))
	assert.Negative(t, right.At(strike.Line{}, 1).Vel.X, "right english squirts the ball to the left")
	assert.Zero(t, prepare(t, ball, cue(12*unit.Inch, tip), strike.Contact{Height: 0.4}).At(strike.Line{}, 1).Vel.X)

	k, err := strike.MassRatio(ball, cue(12*unit.Inch, tip))
	require.NoError(t, err)
	assert.InDelta(t, float64(strike.Deflection(0.4, k)), float64(right.Squirt(0)), 1e-15, "level cue, no height: α itself")
}

// Momentum and restitution of two bodies on one line: v = V(1+e)/(1+m/M).
func TestCentreHit(t *testing.T) {
	hit := prepare(t, ball, cue(12*unit.Inch, tip), strike.Contact{})
	got := hit.At(strike.Line{Heading: 0.1, Elevation: 0.2}, 3)
	assert.InDelta(t, 3*1.75/(1+170.0/540), got.Vel.Norm(), 1e-14)
	assert.InDelta(t, 0.1, math.Atan2(got.Vel.X, got.Vel.Y), 1e-15)
	assert.Zero(t, got.Spin)
	assert.Zero(t, got.Squirt)
	assert.Zero(t, hit.SpinRatio())
}

// Coriolis 1835: a ball struck level at 2/5 R above centre, by a cue without end mass,
// rolls at once.
func TestTwoFifthsAboveCentreRolls(t *testing.T) {
	hit := prepare(t, ball, cue(rigid, tip), strike.Contact{Height: 0.4})
	got := hit.At(strike.Line{}, 2)
	assert.InDelta(t, 0, got.Vel.Y+got.Spin.X*float64(ball.Radius), 1e-14*got.Vel.Y)
	assert.InDelta(t, 0, got.Vel.Z, 1e-15)

	low := prepare(t, ball, cue(rigid, tip), strike.Contact{Height: 0.39}).At(strike.Line{}, 2)
	assert.Positive(t, low.Vel.Y+low.Spin.X*float64(ball.Radius), "struck lower, it slides forward")
}

// A stated assumption of the model: the end mass resists upward motion as it does
// sideways motion, so a level draw shot leaves the cloth a little.
func TestLevelDrawHops(t *testing.T) {
	assert.Positive(t, prepare(t, ball, cue(12*unit.Inch, tip), strike.Contact{Height: -0.4}).At(strike.Line{}, 2).Vel.Z)
}

// limit returns the largest offset before a miscue, by bisection.
func limit(c gear.Cue) float64 {
	lo, hi := 0.0, 0.99
	for range 60 {
		mid := (lo + hi) / 2
		if _, err := strike.Prepare(ball, c, strike.Contact{Side: mid}); err == nil {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// A trade fact (common practice, no source): a low-deflection cue gives no more spin. At
// the miscue limit the spin per speed is the same for every cue.
func TestMostSpinIsTheSameForEveryCue(t *testing.T) {
	gripping := wide
	gripping.Friction = 0.6
	offsets := map[float64]bool{}
	for _, pivot := range []unit.Length{7, 9.5, 13, 19, 40} {
		c := cue(pivot*unit.Inch, gripping)
		most := limit(c)
		offsets[most] = true
		got := prepare(t, ball, c, strike.Contact{Side: most}).At(strike.Line{}, 1)
		assert.InDelta(t, 2.5*math.Sin(math.Atan(0.6)), got.Spin.Norm()*float64(ball.Radius)/got.Vel.Norm(), 1e-12)
	}
	assert.Len(t, offsets, 5, "each cue reaches it at a different offset")
}

func ExamplePrepare() {
	ball := gear.Balls[0].Is
	cue := gear.Cue{
		Mass:  540 * unit.Gram,
		Tip:   gear.Tip{Dome: 10.6 * unit.Millimetre, Width: 13 * unit.Millimetre, Restitution: 0.75, Friction: 0.6},
		Pivot: 12 * unit.Inch, PivotSpin: 0.5,
	}
	hit, err := strike.Prepare(ball, cue, strike.Contact{Side: 0.4})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("squirt %.2f°\n", hit.Squirt(0)/unit.Degree)
	fmt.Printf("end mass %.1f g\n", hit.EndMass()/unit.Gram)
	fmt.Printf("cue at 3 m/s: ball at %.2f m/s\n", hit.BallSpeed(3))
	_, err = strike.Prepare(ball, cue, strike.Contact{Side: 0.6})
	fmt.Println(err)
	// Output:
	// squirt 2.82°
	// end mass 11.0 g
	// cue at 3 m/s: ball at 3.15 m/s
	// the tip slips off the ball, a miscue: use less offset
}
