package hop

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stance"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// steep returns a centre hit with a leather tip, the butt 40° up.
func steep() shot.Shot {
	return shot.Shot{
		Ball: gear.Ball{Radius: 1.125 * unit.Inch, Mass: 170 * unit.Gram},
		Cue: gear.Cue{
			Mass:  540 * unit.Gram,
			Tip:   gear.Tip{Dome: 10.6 * unit.Millimetre, Width: 13 * unit.Millimetre, Restitution: 0.75, Friction: 0.6},
			Pivot: 12 * unit.Inch, PivotSpin: 0.5,
		},
		Cloth:     gear.Cloth{Slide: 0.2, Roll: 0.01, SpinDecay: 10, Rebound: 0.5},
		Elevation: 40 * unit.Degree,
		Hands:     stance.Hands{Bridge: 10 * unit.Inch, Grip: 24 * unit.Inch, Back: 1},
		Speed:     5, ByStroke: true,
		Dist: 36 * unit.Inch,
		Gate: gear.Gate{Dist: 12 * unit.Inch, Gap: 2 * unit.Inch},
	}
}

// randomSteep returns any cue, cloth, contact and elevation from 5° to 75°.
func randomSteep(rng *rand.Rand) shot.Shot {
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	s := steep()
	s.Elevation = unit.Angle(in(5, 75)) * unit.Degree
	s.Contact = strike.Contact{Side: in(-0.3, 0.3), Height: in(-0.3, 0.25)}
	s.Cue.Mass, s.Cue.Tip.Restitution = unit.Mass(in(0.25, 0.7)), in(0.6, 0.9)
	s.Cue.Pivot = unit.Length(in(8, 20)) * unit.Inch
	s.Cloth.Rebound, s.Cloth.Slide = in(0.3, 0.7), in(0.1, 0.4)
	return s
}

func pressed(t *testing.T, s shot.Shot, ratio, steps float64) Press {
	t.Helper()
	hit, line, _, err := s.Stroke()
	require.NoError(t, err)
	return struck(s.Ball, s.Cue, s.Cloth, &hit, line, ratio, steps)
}

func assertNear(t *testing.T, want, got vec.V, delta float64, name string) {
	t.Helper()
	assert.LessOrEqual(t, want.Sub(got).Norm(), delta, "%s: want %v, got %v", name, want, got)
}

// The same hits by SciPy's stiff integrator, with forces and events instead of steps and
// impulses. testdata/hop has the results and the script. Both are accurate to about 2e-3
// of the cue's speed.
func TestAgreesWithAStiffIntegrator(t *testing.T) {
	text, err := os.ReadFile("../../testdata/hop/hop.json")
	require.NoError(t, err)
	var data struct {
		Cases []struct {
			Name               string
			R                  unit.Length
			Mass               unit.Mass `json:"m"`
			Cue                unit.Mass `json:"M"`
			K                  float64   `json:"k"`
			TipFriction        float64   `json:"tip_friction"`
			Slide              float64
			TipE               float64 `json:"e_tip"`
			BedE               float64 `json:"e_bed"`
			TipTime            float64 `json:"T_tip"`
			BedTime            float64 `json:"T_bed"`
			Heading, Elevation unit.Angle
			Side, Height       float64
			Speed              float64 `json:"cue_speed"`
			After              struct {
				V, W   [3]float64
				Cue    float64
				TipOff float64 `json:"tip_off"`
				BedOff float64 `json:"bed_off"`
			}
		}
	}
	require.NoError(t, json.Unmarshal(text, &data))
	require.Len(t, data.Cases, 35)
	for _, c := range data.Cases {
		ball := gear.Ball{Radius: c.R, Mass: c.Mass}
		cue := gear.Cue{
			Mass: c.Cue, PivotSpin: 0.5,
			Tip: gear.Tip{Dome: 10.6 * unit.Millimetre, Width: 40 * unit.Millimetre, Restitution: c.TipE, Friction: c.TipFriction},
		}
		cue.Pivot = strike.NaturalPivot(0.5, c.K, ball, cue.Tip)
		hit, err := strike.Prepare(ball, cue, strike.Contact{Side: c.Side, Height: c.Height})
		require.NoError(t, err, c.Name)
		p := Struck(ball, cue, gear.Cloth{Slide: c.Slide, Rebound: c.BedE}, &hit, strike.Line{Heading: c.Heading, Elevation: c.Elevation}, c.TipTime/c.BedTime)
		v, w := c.After.V, c.After.W
		const close = 2e-3
		assertNear(t, vec.V{X: v[0], Y: v[1], Z: v[2]}.Mul(1/c.Speed), p.Vel, close, c.Name)
		assertNear(t, vec.V{X: w[0], Y: w[1], Z: w[2]}.Mul(float64(c.R)/c.Speed), p.Spin.Mul(float64(c.R)), 2*close, c.Name+" spin")
		assert.InDelta(t, c.After.Cue/c.Speed, p.Cue, close, c.Name)
		assert.InDelta(t, c.After.TipOff/c.BedTime, float64(p.Tip), 0.03, c.Name)
		if c.Elevation > 0 {
			assert.InDelta(t, c.After.BedOff/c.BedTime, float64(p.Bed), 0.03, c.Name)
		}
	}
}

// As the tip's contact becomes short compared with the bed's, the tip is done before the
// bed responds, and the result tends to the closed forms of a hit and a bounce.
func TestAShortContactGivesTheClosedForms(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 1))
	compared := 0
	for range 60 {
		s := randomSteep(rng)
		p := pressed(t, s, 1e-4, steps)
		if p.Touches > 1 {
			continue // the ball comes back to the cue, which the closed forms leave out
		}
		hit, line, _, err := s.Stroke()
		require.NoError(t, err)
		launch := hit.At(line, 1)
		// One after the other: a first bounce, and the state in which the ball leaves it.
		path := motion.Run(launch.Vel.Mul(10), launch.Spin.Mul(10), s.Ball.Radius, s.Cloth)
		after := path.Segments()[0].From
		assertNear(t, after.Vel.Mul(0.1), p.Vel, 1e-3, "velocity")
		assertNear(t, after.Spin.Mul(0.1*float64(s.Ball.Radius)), p.Spin.Mul(float64(s.Ball.Radius)), 2e-3, "spin")
		compared++
	}
	assert.Greater(t, compared, 40)
}

// Newton's and Euler's laws over the whole contact: the ball gains the momentum and
// angular momentum that tip and bed give it; cue and end mass lose what the tip gives;
// and the energy lost is what springs and frictions take.
func TestBalances(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 2))
	for range 60 {
		s := randomSteep(rng)
		p := pressed(t, s, 0.3*math.Pow(12, rng.Float64()), 6*steps)
		hit, line, _, err := s.Stroke()
		require.NoError(t, err)
		m, r := float64(s.Ball.Mass), float64(s.Ball.Radius)
		inertia := 0.4 * m * r * r
		dir, out, _ := hit.Axes(line)
		arm := out.Mul(hit.Offset()).Sub(dir.Mul(math.Sqrt(1 - hit.Offset()*hit.Offset()))).Mul(r)
		assertNear(t, p.OnTip.Add(p.OnBed), p.Vel.Mul(m), 1e-12, "momentum of the ball")
		assertNear(t, arm.Cross(p.OnTip).Add(vec.V{Z: -r}.Cross(p.OnBed)), p.Spin.Mul(inertia), 1e-12, "angular momentum")
		along := p.OnTip.Dot(dir)
		assert.InDelta(t, float64(s.Cue.Mass)*(1-p.Cue), along, 1e-12, "momentum of the cue")
		assertNear(t, p.OnTip.Sub(dir.Mul(along)).Mul(-1/float64(hit.EndMass())), p.End, 1e-12, "momentum of the end mass")

		before := float64(s.Cue.Mass) / 2
		after := float64(s.Cue.Mass)/2*p.Cue*p.Cue + m/2*p.Vel.Dot(p.Vel) + inertia/2*p.Spin.Dot(p.Spin) + float64(hit.EndMass())/2*p.End.Dot(p.End)
		assert.InDelta(t, before, after+p.Lost, 2e-3*before, "energy")
		assert.Greater(t, p.Lost, 0.0)
		assert.GreaterOrEqual(t, p.OnBed.Z, 0.0, "the bed only pushes")
		assert.LessOrEqual(t, p.OnBed.Plan().Norm(), s.Cloth.Slide*p.OnBed.Z*(1+1e-9), "and rubs within its friction")
	}
}

// Halving the step changes no rise by more than 1 %.
func TestTheStepDoesNotMatter(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 3))
	for range 60 {
		s := randomSteep(rng)
		ratio := 0.2 * math.Pow(20, rng.Float64())
		coarse, fine := pressed(t, s, ratio, steps), pressed(t, s, ratio, 2*steps)
		assert.InDelta(t, fine.Vel.Z*fine.Vel.Z, coarse.Vel.Z*coarse.Vel.Z, 0.01*fine.Vel.Z*fine.Vel.Z+1e-5)
		assertNear(t, fine.Vel, coarse.Vel, 2e-3, "velocity")
	}
}

// A level cue does not press on the bed, so the closed forms of the hit hold for every
// contact time.
func TestALevelHitIsTheClosedForm(t *testing.T) {
	for _, ratio := range []float64{0.1, 1, 4} {
		s := steep()
		s.Elevation, s.Contact.Side = 0, 0.4
		p := pressed(t, s, ratio, steps)
		hit, line, _, err := s.Stroke()
		require.NoError(t, err)
		want := hit.At(line, 1)
		assertNear(t, want.Vel, p.Vel, 2e-4, "velocity")
		assertNear(t, want.Spin.Mul(0.028), p.Spin.Mul(0.028), 4e-4, "spin")
		assert.Zero(t, p.OnBed)
		// Off centre the ball yields more, so the tip lets go sooner. T is proportional
		// to 1/√(1/M + 1/m'), with m' from J = mV(1+e)/(1 + m/M + ...).
		v := hit.BallSpeed(1)
		yield := 1.75 / (float64(v) * strike.Deflection(0.4, float64(s.Ball.Mass/hit.EndMass())).Cos())
		assert.InEpsilon(t, ratio*math.Sqrt((1+0.17/0.54)/yield), float64(p.Tip), 0.02)
		assert.Zero(t, p.Slipped)
	}
}

// A bed without restitution gives no hop, and a contact with a tip without restitution
// ends as well.
func TestZeroRestitution(t *testing.T) {
	s := steep()
	s.Cloth.Rebound = 0
	p := pressed(t, s, 0.2, steps)
	assert.InDelta(t, 0, p.Vel.Z, 1e-2)
	s = steep()
	s.Cue.Tip.Restitution = 0.3
	p = pressed(t, s, 1, steps)
	assert.Greater(t, p.Vel.Y, 0.5)
}

func BenchmarkStruck(b *testing.B) {
	s := steep()
	hit, line, _, _ := s.Stroke()
	for _, ratio := range []float64{0.1, 1, 3} {
		b.Run("", func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Struck(s.Ball, s.Cue, s.Cloth, &hit, line, ratio)
			}
		})
	}
}
