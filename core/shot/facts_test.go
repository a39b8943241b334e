package shot_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
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
)

// level is the medium shot with a level cue whose pivot length is measured at the shot's
// own side.
func level() shot.Shot {
	s := medium()
	s.Elevation, s.Cue.PivotSpin = 0, s.Contact.Side
	return s
}

// Common practice, no source: from a bridge at the natural pivot length, back-hand
// english needs no correction of the aim. With a level cue there is no swerve either, and
// the ball arrives dead ahead at any speed.
func TestAtTheNaturalPivotBackHandEnglishIsAimed(t *testing.T) {
	for _, speed := range []unit.Speed{3, 7, 20} {
		s := level()
		s.Speed, s.Hands.Bridge = speed*unit.MilePerHour, s.Cue.Pivot
		r := play(s).Reading
		assert.InDelta(t, 0, float64(r.Launch.Value), 1e-15)
		assert.InDelta(t, 0, float64(r.Swerve.Value), 1e-15)
		assert.InDelta(t, 0, float64(r.Arrival.Value), 1e-14)
		assert.InDelta(t, float64(s.Cue.Pivot), float64(r.PivotNatural.Value), 1e-14)
		assert.InDelta(t, float64(s.Cue.Pivot), float64(r.PivotEffective.Value), 1e-12)
		assert.InDelta(t, 1, r.ShareBack.Value, 1e-12)
	}
}

// Common practice, no source: a bridge that is too short sends the ball to the side of
// the english. A bridge that is too long, and a parallel shift, send it to the other
// side.
func TestBridgeAndShift(t *testing.T) {
	for _, side := range []float64{0.4, -0.4} {
		arrival := func(bridge unit.Length, back float64) float64 {
			s := level()
			s.Contact.Side, s.Hands.Bridge, s.Hands.Back = side, bridge*unit.Inch, back
			return float64(play(s).Reading.Arrival.Value) * side
		}
		assert.Positive(t, arrival(8, 1))
		assert.Negative(t, arrival(20, 1))
		assert.Negative(t, arrival(12, 0))
	}
}

// With pure back-hand english and a correct aim, the side on which the ball misses shows
// which way to move the bridge: a miss towards the english means that the bridge is too
// short, a miss away from it that it is too long. Where swerve exceeds squirt, every
// bridge is too short.
func TestAMissTellsWhichWayToMoveTheBridge(t *testing.T) {
	rng := rand.New(rand.NewPCG(41, 42))
	short, long, never := 0, 0, 0
	for short < 200 || long < 200 || never < 200 {
		s := medium()
		s.Contact = strike.Contact{Side: rng.Float64()*0.9 - 0.45, Height: rng.Float64()*0.4 - 0.2}
		s.Elevation, s.Speed = unit.Angle(rng.Float64()*10)*unit.Degree, unit.Speed(1+6*rng.Float64())
		s.Hands = stance.Hands{Bridge: unit.Length(4+30*rng.Float64()) * unit.Inch, Grip: 30 * unit.Inch, Back: 1}
		r := play(s).Reading
		if r.Arrival.Err() != nil {
			continue
		}
		toward := float64(r.Arrival.Value)*s.Contact.Side > 0
		switch suits := r.PivotEffective; {
		case errors.Is(suits.Err(), shot.ErrOtherSide):
			never++
			require.True(t, toward, "%+v", s)
		case suits.Err() == nil:
			if toward {
				short++
			} else {
				long++
			}
			require.Equal(t, s.Hands.Bridge < suits.Value, toward, "%+v", s)
		}
	}
}

// A faulty aim misses to the same side with either english, from the bridge that suits
// the shot. Then the side of the miss says nothing about the bridge.
func TestAPoorAimMissesToOneSide(t *testing.T) {
	for _, side := range []float64{0.4, -0.4} {
		s := medium()
		s.Contact.Side = side
		s.Hands.Bridge = play(s).Reading.PivotEffective.Value
		assert.InDelta(t, 0, float64(play(s).Reading.Arrival.Value), 1e-12)
		s.AimOff = 1 * unit.Degree
		assert.Positive(t, float64(play(s).Reading.Arrival.Value))
	}
}

// Common practice, no source: with the butt raised the ball swerves back towards the side
// of the english. The slower the shot and the higher the butt, the more it swerves, and
// the longer the bridge that sends it to the target.
func TestSwerve(t *testing.T) {
	swerve := func(elevation unit.Angle, mph unit.Speed) *shot.Reading {
		s := medium()
		s.Elevation, s.Speed = elevation*unit.Degree, mph*unit.MilePerHour
		return &play(s).Reading
	}
	assert.Positive(t, float64(swerve(3, 7).Swerve.Value), "right english curves to the right")
	assert.Greater(t, swerve(3, 4).Swerve.Value, swerve(3, 7).Swerve.Value)
	assert.Greater(t, swerve(6, 7).Swerve.Value, swerve(3, 7).Swerve.Value)
	assert.Greater(t, swerve(3, 4).PivotEffective.Value, swerve(3, 7).PivotEffective.Value)
}

// Common practice, no source: the lower a cue's deflection, the longer the bridge that
// suits it.
func TestLowerDeflectionNeedsALongerBridge(t *testing.T) {
	last := unit.Length(0)
	for _, pivot := range []unit.Length{8, 9.5, 13, 19} {
		s := level()
		s.Cue.Pivot = pivot * unit.Inch
		now := play(s).Reading.PivotEffective.Value
		assert.Greater(t, now, last)
		last = now
	}
}

func TestHopOverTheEdgeIsClean(t *testing.T) {
	s := hopping()
	assert.Equal(t, shot.Clean, play(s).Reading.Verdict.Value)
	s.Elevation = 0
	assert.NotEqual(t, shot.Clean, play(s).Reading.Verdict.Value, "on the cloth it does not fit")
}

// Each reason for a missing answer, and whether the ball is sent at all.
func TestReasons(t *testing.T) {
	value := func(name string, r *shot.Reading) error {
		for _, spec := range shot.Specs {
			if spec.Name == name {
				_, err := spec.Get(r)
				return err
			}
		}
		return errors.New("no such reading: " + name)
	}
	for _, c := range []struct {
		name    string
		change  func(*shot.Shot)
		want    error
		where   []string // answers that are missing
		answers []string // answers that are given all the same
		sent    bool
	}{
		{"off the ball", func(s *shot.Shot) { s.Contact.Side = 1.1 }, strike.ErrOffBall,
			[]string{"squirt", "launch", "arrival", "clear-left", "miscue-margin", "ball-speed", "cue-speed", "spin-ratio", "pivot-natural", "slide-end", "share-back"},
			[]string{"end-mass"}, false},
		{"off the tip", func(s *shot.Shot) { s.Contact.Side = 0.65 }, strike.ErrOffTip,
			[]string{"squirt", "arrival", "miscue-margin"}, []string{"heading", "end-mass", "pivot-natural"}, false},
		{"miscue", func(s *shot.Shot) { s.Contact.Side = 0.6 }, strike.ErrMiscue,
			[]string{"squirt", "arrival", "clear-left"}, []string{"heading", "miscue-margin", "end-mass", "pivot-natural"}, false},
		{"no such cue", func(s *shot.Shot) { s.Cue.Pivot = 1 * unit.Inch }, strike.ErrPivot,
			[]string{"squirt", "arrival", "end-mass", "pivot-natural", "miscue-margin"}, []string{"heading"}, false},
		{"turned too far", func(s *shot.Shot) { s.Hands.Back, s.Hands.Front, s.Hands.Bridge = 5, 5, 2*unit.Inch }, stance.ErrTurn,
			[]string{"heading", "launch", "arrival", "swerve", "share-back", "clear-right"},
			[]string{"squirt", "spin-ratio", "ball-speed", "cue-speed", "miscue-margin"}, false},
		{"stops short", func(s *shot.Shot) { s.Speed = 0.1 }, motion.ErrStops,
			[]string{"arrival", "swerve", "pivot-effective", "share-back"}, []string{"launch", "slide-end", "clear-left"}, true},
		{"no side", func(s *shot.Shot) { s.Contact.Side = 0 }, stance.ErrNoSide,
			[]string{"pivot-effective", "share-back"}, []string{"arrival", "pivot-natural"}, true},
		{"to the other side", func(s *shot.Shot) { s.Elevation, s.Speed = 20*unit.Degree, 2 }, shot.ErrOtherSide,
			[]string{"pivot-effective"}, []string{"share-back", "arrival"}, true},
		{"past any bridge", func(s *shot.Shot) {
			s.Cue.Pivot, s.Elevation, s.Contact, s.Dist = 1.3*unit.Inch, 79*unit.Degree, strike.Contact{Side: 0.18, Height: 0.12}, 5*unit.Inch
		}, strike.ErrNoBridge, []string{"pivot-effective"}, []string{"share-back", "arrival"}, true},
		{"no blockers", func(s *shot.Shot) { s.Gate.Dist = 0 }, contact.ErrNoGate,
			[]string{"clear-left", "clear-right"}, []string{"arrival"}, true},
		{"blockers on the ball", func(s *shot.Shot) { s.Gate = gear.Gate{Dist: 0.02, Gap: 0.01} }, contact.ErrOverlap,
			[]string{"clear-left", "clear-right"}, []string{"arrival"}, true},
		{"too thin", func(s *shot.Shot) { s.Object.Cut = 100 * unit.Degree }, contact.ErrThin, []string{"throw"}, []string{"arrival"}, true},
		{"over the object ball", func(s *shot.Shot) { s.Elevation, s.Dist, s.Speed = 50*unit.Degree, 15*unit.Inch, 5 }, contact.ErrOver, []string{"throw"}, []string{"arrival"}, true},
	} {
		s := medium()
		c.change(&s)
		res := play(s)
		for _, name := range c.where {
			assert.ErrorIs(t, value(name, &res.Reading), c.want, "%s: %s", c.name, name)
		}
		for _, name := range c.answers {
			assert.NoError(t, value(name, &res.Reading), "%s: %s", c.name, name)
		}
		if c.sent {
			assert.NoError(t, res.Launched, c.name)
		} else {
			assert.ErrorIs(t, res.Launched, c.want, c.name)
		}
	}
}

// As sidespin vanishes, the readings that depend on it go to a limit.
func TestVanishingSide(t *testing.T) {
	s := medium()
	s.Contact.Side = 1e-7
	little := play(s).Reading
	s.Contact.Side = 1e-200
	least := play(s).Reading
	require.NoError(t, least.PivotEffective.Err())
	assert.InEpsilon(t, float64(little.PivotEffective.Value), float64(least.PivotEffective.Value), 1e-6)
	assert.InEpsilon(t, float64(little.PivotNatural.Value), float64(least.PivotNatural.Value), 1e-6)
	assert.InEpsilon(t, little.ShareBack.Value, least.ShareBack.Value, 1e-6)
}

func TestVerdicts(t *testing.T) {
	for _, c := range []struct {
		want   shot.Verdict
		change func(*shot.Shot)
	}{
		{shot.Clean, func(s *shot.Shot) { s.Contact.Side = 0 }},
		{shot.TouchesRight, func(s *shot.Shot) { s.Hands.Bridge = 6 * unit.Inch }},
		{shot.TouchesLeft, func(s *shot.Shot) { s.Hands.Back = 0 }},
		{shot.StopsShort, func(s *shot.Shot) { s.Contact.Side, s.Speed = 0, 0.2 }},
		{shot.Miscue, func(s *shot.Shot) { s.Contact.Side = 0.6 }},
	} {
		s := medium()
		c.change(&s)
		verdict := play(s).Reading.Verdict
		assert.NoError(t, verdict.Err(), c.want)
		assert.Equal(t, c.want, verdict.Value)
	}
}

// A massé that comes back across the start needs a turn beyond a right angle, which
// neither a share nor a bridge gives.
func TestNoAimForABallThatComesBack(t *testing.T) {
	s := medium()
	s.Contact, s.Elevation, s.Speed, s.Dist = strike.Contact{Side: 0.2, Height: -0.4}, 80*unit.Degree, 3, 8*unit.Inch
	r := play(s).Reading
	require.NoError(t, r.Aim.Err())
	require.Greater(t, math.Abs(float64(r.Aim.Value)), math.Pi/2)
	assert.ErrorIs(t, r.ShareBack.Err(), stance.ErrTurn)
	assert.ErrorIs(t, r.PivotEffective.Err(), strike.ErrNoBridge)

	// With the cue turned by some 75° the ball comes back on the other side of straight
	// behind. Swerve is the same.
	s.Hands.Back = 41
	turned := play(s).Reading
	require.Greater(t, float64(turned.Heading.Value), 1.25)
	assert.InDelta(t, float64(r.Swerve.Value), float64(turned.Swerve.Value), 1e-12)
	assert.InDelta(t, float64(r.Aim.Value), float64(turned.Aim.Value), 1e-12)
}

func TestSpecsNameEachReadingOnce(t *testing.T) {
	seen := map[string]bool{}
	for _, spec := range shot.Specs {
		assert.False(t, seen[spec.Name], spec.Name)
		seen[spec.Name] = true
		assert.NotEmpty(t, spec.Label)
		assert.NotEmpty(t, spec.Meaning)
		assert.Equal(t, strings.HasPrefix(spec.Name, "clear") || spec.Name == "arrival", spec.Small(), spec.Name)
	}
	for _, name := range []string{
		"squirt", "heading", "launch", "swerve", "arrival", "clear-left", "clear-right", "pivot-natural", "pivot-effective",
		"share-back", "cue-speed", "ball-speed", "spin-ratio", "slide-end", "throw", "end-mass", "miscue-margin",
	} {
		assert.True(t, seen[name], name)
	}
}
