package shot_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/contact"
	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stance"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// medium is a medium shot with right english and back-hand english.
func medium() shot.Shot {
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
		Speed:     7 * unit.MilePerHour,
		Dist:      36 * unit.Inch,
		Gate:      gear.Gate{Dist: 30 * unit.Inch, Gap: 2.75 * unit.Inch},
	}
}

func play(s shot.Shot) *shot.Result {
	var res shot.Result
	shot.Play(&s, &res)
	return &res
}

func between(rng *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }

func inches(rng *rand.Rand, lo, hi float64) unit.Length {
	return unit.Length(between(rng, lo, hi)) * unit.Inch
}

// anything returns any shot that the controls allow, and contacts beyond what they allow.
func anything(rng *rand.Rand) shot.Shot {
	s := shot.Shot{
		Ball: gear.Ball{Radius: inches(rng, 0.75, 1.5), Mass: unit.Mass(between(rng, 0.08, 0.3))},
		Cue: gear.Cue{
			Mass: unit.Mass(between(rng, 0.2, 0.9)),
			Tip: gear.Tip{
				Dome: unit.Length(between(rng, 0.005, 0.04)), Width: unit.Length(between(rng, 0.008, 0.016)),
				Restitution: between(rng, 0.3, 0.98), Friction: between(rng, 0.1, 1),
			},
			Pivot: inches(rng, 1, 60), PivotSpin: between(rng, 0.1, 0.6),
		},
		Cloth: gear.Cloth{
			Slide: between(rng, 0.05, 0.6), Roll: between(rng, 0.002, 0.05),
			SpinDecay: unit.SpinRate(between(rng, 0, 60)), Rebound: between(rng, 0, 0.8),
		},
		Contact:   strike.Contact{Side: between(rng, -0.8, 0.8), Height: between(rng, -0.8, 0.8)},
		Elevation: unit.Angle(between(rng, 0, 85)) * unit.Degree,
		Hands: stance.Hands{
			Bridge: inches(rng, 2, 40), Grip: inches(rng, 5, 55),
			Back: between(rng, -5, 5), Front: between(rng, -5, 5),
		},
		Speed: unit.Speed(0.09 * math.Pow(200, rng.Float64())), ByStroke: rng.IntN(2) == 0,
		Dist: inches(rng, 3, 140),
		Gate: gear.Gate{Dist: inches(rng, 0, 140), Gap: inches(rng, 0, 10)},
	}
	switch rng.IntN(8) {
	case 0: // sides beyond the controls' range
		s.Contact = strike.Contact{Side: between(rng, -1.2, 1.2), Height: between(rng, -1.2, 1.2)}
	case 1:
		s.Contact.Side = []float64{0, 1, -1, 5e-324, -1e-310, 1e-200, 1e-17}[rng.IntN(7)]
	case 2:
		s.Elevation, s.Contact.Height = 0, 0
	case 3:
		s.Gate.Dist = 0
	default: // a tip with good grip and offsets within it; otherwise most shots would miscue
		s.Contact.Side *= 0.5
		s.Contact.Height *= 0.5
	}
	return s
}

// playable returns a shot with sidespin that is sent and gets to the target.
func playable(rng *rand.Rand, res *shot.Result) shot.Shot {
	for {
		s := anything(rng)
		s.Hands.Back, s.Hands.Front = between(rng, -1, 2), between(rng, -1, 2)
		shot.Play(&s, res)
		if res.Launched == nil && res.Reading.Arrival.Err() == nil && math.Abs(s.Contact.Side) > 0.01 {
			return s
		}
	}
}

func TestReadingsAgreeWithEachOther(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 32))
	var res shot.Result
	for range 5000 {
		s := playable(rng, &res)
		r := &res.Reading
		v := res.Launch.Vel
		launch := float64(r.Launch.Value)
		require.Equal(t, r.Heading.Value-r.Squirt.Value, r.Launch.Value)
		require.InDelta(t, 0, math.Remainder(math.Atan2(v.X, v.Y)-launch, 2*math.Pi), 1e-10)
		require.InDelta(t, float64(s.Dist)*math.Sin(launch+float64(r.Swerve.Value)), float64(r.Arrival.Value), 1e-12*(1+float64(s.Dist)))
		require.InDelta(t, 0, math.Remainder(launch+float64(r.Swerve.Value-r.Heading.Value+r.Aim.Value), 2*math.Pi), 1e-12)
		require.Equal(t, res.Turn.Heading, r.Heading.Value)

		require.InEpsilon(t, v.Norm(), float64(r.BallSpeed.Value), 1e-12)
		require.InEpsilon(t, res.Launch.Spin.Norm()*float64(s.Ball.Radius)/v.Norm(), r.SpinRatio.Value, 1e-11)
		if s.ByStroke {
			require.Equal(t, s.Speed, r.CueSpeed.Value)
		} else {
			require.Equal(t, s.Speed, r.BallSpeed.Value)
		}
		start, _ := res.Path.At(res.Path.RollStart())
		require.InDelta(t, start.Pos.Plan().Norm(), float64(r.SlideEnd.Value), 1e-15)
		require.GreaterOrEqual(t, float64(r.MiscueMargin.Value), 0.0)

		k, err := strike.MassRatio(s.Ball, s.Cue)
		require.NoError(t, err)
		require.InEpsilon(t, float64(s.Ball.Mass)/k, float64(r.EndMass.Value), 1e-12)
		straight, err := strike.StraightBridge(s.Contact, s.Elevation, k, s.Ball, s.Cue.Tip)
		require.Equal(t, err, r.PivotNatural.Err())
		require.Equal(t, straight, r.PivotNatural.Value)
		require.Equal(t, r.Throw.Err() == contact.ErrThin || r.Throw.Err() == contact.ErrOver, r.Throw.Err() != nil)
	}
}

// At the natural pivot length, pure back-hand english launches the ball straight, at any
// height and elevation.
func TestNaturalPivotLaunchesStraight(t *testing.T) {
	rng := rand.New(rand.NewPCG(37, 38))
	var res shot.Result
	for played := 0; played < 5000; {
		s := playable(rng, &res)
		natural := res.Reading.PivotNatural
		if errors.Is(natural.Err(), strike.ErrNoBridge) {
			continue // the cue is almost upright
		}
		require.NoError(t, natural.Err())
		played++
		s.Hands.Bridge, s.Hands.Back, s.Hands.Front, s.AimOff = natural.Value, 1, 0, 0
		shot.Play(&s, &res)
		require.InDelta(t, 0, float64(res.Reading.Launch.Value), 1e-12, "%+v", s)
		require.InDelta(t, 0, res.Launch.Vel.X, 1e-12*res.Launch.Vel.Norm(), "%+v", s)
	}
}

// Ball speed and cue speed describe the same stroke.
func TestSpeedAndStroke(t *testing.T) {
	byBall := medium()
	first := play(byBall)
	byStroke := medium()
	byStroke.Speed, byStroke.ByStroke = first.Reading.CueSpeed.Value, true
	second := play(byStroke)
	assert.InEpsilon(t, float64(byBall.Speed), float64(second.Reading.BallSpeed.Value), 1e-15)
	assert.InDelta(t, float64(first.Reading.Arrival.Value), float64(second.Reading.Arrival.Value), 1e-14)
}

// The aim that a reading states, fed back into the hands, sends the ball to the target.
func TestAimFedForwardArrives(t *testing.T) {
	rng := rand.New(rand.NewPCG(33, 34))
	var res, again shot.Result
	shares, pivots := 0, 0
	for shares < 10_000 {
		s := playable(rng, &res)
		r := res.Reading
		if math.Abs(float64(r.Aim.Value)) > 1.4 { // near a right angle the sine is almost the same for all headings
			continue
		}
		require.NoError(t, r.ShareBack.Err())
		shares++
		s.Hands.Back, s.Hands.Front = r.ShareBack.Value, 1-r.ShareBack.Value
		shot.Play(&s, &again)
		require.InDelta(t, 0, float64(again.Reading.Arrival.Value), 1e-9, "%+v", s)
		require.InDelta(t, float64(r.Aim.Value), float64(again.Reading.Heading.Value), 1e-11)

		if r.PivotEffective.Err() != nil {
			continue
		}
		pivots++
		s.Hands.Bridge, s.Hands.Back, s.Hands.Front = r.PivotEffective.Value, 1, 0
		shot.Play(&s, &again)
		require.InDelta(t, 0, float64(again.Reading.Arrival.Value), 1e-9, "%+v", s)
	}
	assert.Greater(t, pivots, 2000)
}

// The path for a heading is the path for heading 0, turned by the heading.
func TestThePathTurnsWithTheCue(t *testing.T) {
	rng := rand.New(rand.NewPCG(35, 36))
	var res shot.Result
	for range 1000 {
		s := playable(rng, &res)
		s.Hands.Back, s.Hands.Front = 0, 0
		ahead := play(s)
		require.Zero(t, ahead.Reading.Heading.Value)
		require.InDelta(t, float64(ahead.Reading.Swerve.Value), float64(res.Reading.Swerve.Value), 1e-9)
		require.InDelta(t, float64(ahead.Reading.Aim.Value), float64(res.Reading.Aim.Value), 1e-9)
		sin, cos := math.Sincos(float64(res.Turn.Heading))
		for i := range 20 {
			when := ahead.Path.Stop() * unit.Span(i) / 19
			a, _ := ahead.Path.At(when)
			b, _ := res.Path.At(when)
			turned := vec.V{X: a.Pos.X*cos + a.Pos.Y*sin, Y: a.Pos.Y*cos - a.Pos.X*sin, Z: a.Pos.Z}
			require.Less(t, turned.Sub(b.Pos).Norm(), 1e-10*(1+b.Pos.Norm()))
		}
	}
}

// For any shot, each reading is a finite number or has a reason. The samples include
// every reason.
func TestNoAnswerIsNotANumber(t *testing.T) {
	rng := rand.New(rand.NewPCG(37, 38))
	met := map[error]int{}
	verdicts := map[shot.Verdict]int{}
	finite := func(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
	var res shot.Result
	for range 100_000 {
		s := anything(rng)
		shot.Play(&s, &res)
		for _, spec := range shot.Specs {
			v, err := spec.Get(&res.Reading)
			if !finite(v) || err != nil && v != 0 {
				t.Fatalf("%s is %v, %v: %+v", spec.Name, v, err, s)
			}
			met[err]++
		}
		if r := &res.Reading; r.PivotEffective.Err() == nil && math.Abs(float64(r.Aim.Value)) >= math.Pi/2 {
			t.Fatalf("no bridge turns the cue by %v: %+v", r.Aim.Value, s)
		}
		met[res.Reading.Aim.Err()]++
		met[res.Reading.Verdict.Err()]++
		verdicts[res.Reading.Verdict.Value]++
		if (res.Reading.Verdict.Value == "") != (res.Reading.Verdict.Err() != nil) {
			t.Fatalf("verdict %+v", res.Reading.Verdict)
		}
		if res.Launched != nil {
			continue
		}
		for _, when := range []unit.Span{0, res.Path.RollStart(), res.Path.Stop(), res.Path.Stop() + 1} {
			at, _ := res.Path.At(when)
			if !finite(at.Pos.Norm()) || !finite(at.Vel.Norm()) || !finite(at.Spin.Norm()) {
				t.Fatalf("%+v at %v: %+v", at, when, s)
			}
		}
	}
	for _, err := range []error{
		strike.ErrOffBall, strike.ErrOffTip, strike.ErrMiscue, strike.ErrPivot, stance.ErrTurn, stance.ErrNoSide,
		motion.ErrStops, contact.ErrNoGate, contact.ErrOverlap, shot.ErrOtherSide, strike.ErrNoBridge,
	} {
		assert.Positive(t, met[err], "%v", err)
	}
	for _, v := range []shot.Verdict{shot.Clean, shot.TouchesLeft, shot.TouchesRight, shot.StopsShort, shot.Miscue} {
		assert.Positive(t, verdicts[v], v)
	}
}

func TestPlayAllocatesNothing(t *testing.T) {
	hop := hopping()
	for _, s := range []shot.Shot{medium(), hop} {
		var res shot.Result
		assert.Zero(t, testing.AllocsPerRun(100, func() { shot.Play(&s, &res) }))
	}
}

// hopping returns a hop over the edge of a blocker.
func hopping() shot.Shot {
	s := medium()
	s.Contact.Side, s.Elevation, s.Speed = 0, 40*unit.Degree, 14*unit.MilePerHour
	s.Gate = gear.Gate{Dist: 12 * unit.Inch, Gap: 2 * unit.Inch}
	return s
}

func BenchmarkPlay(b *testing.B) {
	for name, s := range map[string]shot.Shot{"slide": medium(), "hop": hopping()} {
		b.Run(name, func(b *testing.B) {
			var res shot.Result
			b.ReportAllocs()
			for b.Loop() {
				shot.Play(&s, &res)
			}
		})
	}
}
