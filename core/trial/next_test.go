package trial_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/shot"
	"pivotbench/core/stance"
	"pivotbench/core/trial"
	"pivotbench/core/unit"
)

// Without english there is nothing to learn; and a ball that never comes to
// the gate tells nothing.
func TestNothingToLearn(t *testing.T) {
	p := trial.Prior()
	s := setUp()
	s.Contact.Side = 0
	assert.InDelta(t, 0, p.Next(&s, tipScatter, least, most).Bits, 1e-12)
	s = setUp()
	s.Speed = 0.1 * unit.MilePerHour
	assert.Zero(t, p.Next(&s, tipScatter, least, most).Bits)
	assert.Equal(t, math.MaxInt, p.MoreTries(p.Next(&s, tipScatter, least, most), 0.1))
	s = setUp()
	s.Gate.Gap = 200 * unit.Inch // only the narrower gaps tell
	assert.Less(t, p.Next(&s, tipScatter, least, most).Gap, s.Gate.Gap)
}

// Information is never negative, no more than the outcomes could carry, and a
// suggestion keeps within what the player can do.
func TestSuggestionsAreWithinBounds(t *testing.T) {
	for i := range 12 {
		r := rand.New(rand.NewPCG(uint64(i), 8))
		p := measure(t, trial.Draw(r), i, r)
		s := setUp()
		n := p.Next(&s, tipScatter, least, most)
		assert.GreaterOrEqual(t, n.Bits, 0.0)
		assert.Less(t, n.Bits, math.Log2(3))
		assert.GreaterOrEqual(t, n.Bridge, least)
		assert.LessOrEqual(t, n.Bridge, most)
		assert.LessOrEqual(t, n.Gap, s.Gate.Gap)
		assert.GreaterOrEqual(t, n.Gap, 2*s.Ball.Radius+0.25*unit.Inch)
	}
}

// More english tells more, as long as it can be played: the better the chalk and
// the steadier the tip, the more is suggested, and never more than grips.
func TestAsMuchEnglishAsCanBePlayed(t *testing.T) {
	p, s := trial.Prior(), setUp()
	next := func(tip unit.Length) float64 { return p.Next(&s, tip, least, most).Side }
	assert.Equal(t, 0.4, next(tipScatter))
	assert.Greater(t, next(0.5*unit.Millimetre), 0.4)
	assert.Less(t, next(3*unit.Millimetre), 0.4)
	s.Cue.Tip.Friction = 0.5
	assert.Less(t, next(tipScatter), 0.4)
	s = with(setUp(), 0, -0.55)
	assert.Equal(t, 0.4, next(tipScatter), "less than is set up, which miscues too often")
	assert.Equal(t, 0.55, next(30*unit.Millimetre), "no english can be played: what is set up stays")
}

// A gate that is already closer than it need be stays.
func TestAGateIsNeverWidened(t *testing.T) {
	s := setUp()
	s.Gate.Gap = 2.3 * unit.Inch
	assert.Equal(t, s.Gate.Gap, trial.Prior().Next(&s, tipScatter, least, most).Gap)
}

// On the whole, what a suggestion promises is what comes: over testers drawn
// from the priors, the narrowing of the pivot length's interval by a suggested
// try is larger than by one from the bridge that was set up.
func TestASuggestedTryTellsMore(t *testing.T) {
	const testers = 40
	narrowing := func(choose func(p *trial.Posterior, s shot.Shot) shot.Shot) float64 {
		sum := 0.0
		for i := range testers {
			r := rand.New(rand.NewPCG(uint64(i), 21))
			who := trial.Draw(r)
			p := trial.Prior()
			for range 4 {
				try, err := who.Try(choose(p, setUp()), r)
				require.NoError(t, err)
				p, err = p.Add(try)
				require.NoError(t, err)
			}
			sum += math.Log(p.Pivot().To / p.Pivot().From)
		}
		return sum / testers
	}
	stay := narrowing(func(_ *trial.Posterior, s shot.Shot) shot.Shot { return s })
	follow := narrowing(func(p *trial.Posterior, s shot.Shot) shot.Shot { return asked(s, p.Next(&s, tipScatter, least, most)) })
	assert.Less(t, follow, stay-0.2)
}

// Trade fact, common practice: with a 2.75 in gap at 30 in every bridge length
// from about 16 to 26 in passes clean for a shaft whose pivot is 19 in.
func TestAWideGateTellsLittle(t *testing.T) {
	s := with(setUp(), 0, 0.5)
	s.Speed, s.Elevation = 7*unit.MilePerHour, 1*unit.Degree
	from, to, ok := trial.PassRange(&s, 19*unit.Inch, least, 40*unit.Inch)
	require.True(t, ok)
	assert.InDelta(t, 16, float64(from/unit.Inch), 0.5)
	assert.InDelta(t, 26, float64(to/unit.Inch), 0.5)

	s.Gate.Gap = 2 * unit.Inch
	_, _, ok = trial.PassRange(&s, 19*unit.Inch, least, most)
	assert.False(t, ok, "the ball does not fit through")
}

// With a dome larger than the ball the axis passes further from its centre than
// the shortest bridges are long, and no turn about those dials such english in.
func TestNoBridgeIsSuggestedThatTurnsTooFar(t *testing.T) {
	s := setUp()
	s.Cue.Tip.Dome, s.Cue.Tip.Width = 60*unit.Millimetre, 1
	s.Hands.Bridge = 1 * unit.Millimetre
	_, err := s.Hands.Apply(s.Axis(), s.Ball.Radius)
	require.ErrorIs(t, err, stance.ErrTurn)
	next := trial.Prior().Next(&s, tipScatter, s.Hands.Bridge, most)
	assert.Positive(t, next.Bits)
	s.Hands.Bridge, s.Contact.Side = next.Bridge, next.Side
	_, err = s.Hands.Apply(s.Axis(), s.Ball.Radius)
	assert.NoError(t, err)
}

func TestAdviceFindsWhatIsWrongWithASetUp(t *testing.T) {
	p := trial.Prior()
	s := with(setUp(), 0, 0.2)
	change, factor := p.Improve(&s, tipScatter, least, most)
	assert.Equal(t, trial.MoreSide, change)
	assert.Greater(t, factor, 1.2)

	s = setUp()
	s.Speed = 5 * unit.MilePerHour
	change, factor = p.Improve(&s, tipScatter, least, most)
	assert.Equal(t, trial.Faster, change)
	assert.Greater(t, factor, 1.2)

	s = with(setUp(), 0, 0.5)
	s.Speed, s.Elevation = 11.9*unit.MilePerHour, 1*unit.Degree
	s.Gate.Gap = 2.5 * unit.Inch
	change, factor = p.Improve(&s, tipScatter, least, most)
	assert.Equal(t, trial.NoChange, change)
	assert.Equal(t, 1.0, factor)
}

// A soft stroke leaves too much to an elevation that is known to a degree: no
// number of tries is enough, and that is said.
func TestSwerveSetsAFloor(t *testing.T) {
	p := trial.Prior()
	s := setUp()
	firm := p.Next(&s, tipScatter, least, most)
	s.Speed = 5 * unit.MilePerHour
	soft := p.Next(&s, tipScatter, least, most)
	assert.Less(t, firm.Floor, 0.05)
	assert.Greater(t, soft.Floor, 0.1)
	assert.Equal(t, math.MaxInt, p.MoreTries(soft, 0.1))
	assert.Less(t, p.MoreTries(firm, 0.1), 50)

	// As it is said, so it comes: a steady hand, and forty tries.
	r := rand.New(rand.NewPCG(5, 5))
	who := trial.Tester{Pivot: 13 * unit.Inch, Scatter: 0.1 * unit.Degree}
	for range 40 {
		try, err := who.Try(asked(s, p.Next(&s, tipScatter, least, most)), r)
		require.NoError(t, err)
		p, err = p.Add(try)
		require.NoError(t, err)
	}
	e := p.Pivot()
	assert.InEpsilon(t, p.Next(&s, tipScatter, least, most).Floor, math.Log(e.To/e.From)/2, 0.25)
}

func TestMoreTriesComeToAnEnd(t *testing.T) {
	who := trial.Tester{Pivot: 11 * unit.Inch, Scatter: 0.12 * unit.Degree}
	s := setUp()
	first := trial.Prior()
	assert.Greater(t, first.MoreTries(first.Next(&s, tipScatter, least, most), 0.1), 5)
	p := measure(t, who, 25, rand.New(rand.NewPCG(3, 4)))
	assert.True(t, p.Pivot().Within(0.12))
	assert.Zero(t, p.MoreTries(p.Next(&s, tipScatter, least, most), 0.12))
	assert.Positive(t, p.MoreTries(p.Next(&s, tipScatter, least, most), 0.001))
}

// Tries never widen an interval. Those of a set-up whose ball never comes to the
// gate leave it as it is, and any other's make it narrower than that, a set-up that
// tells next to nothing by next to nothing.
func TestTriesNarrowFromWhatIsKnown(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 8))
	p := measure(t, trial.Tester{Pivot: 12 * unit.Inch, Scatter: 0.15 * unit.Degree}, 16, r)
	blind := setUp()
	blind.Speed = 0.1 * unit.MilePerHour
	last := 1.0
	for _, side := range []float64{0.005, 0.1, 0.2, 0.3, 0.4, 0.5} {
		s := with(setUp(), 12*unit.Inch, side)
		s.Speed, s.Elevation = 30*unit.MilePerHour, 1*unit.Degree
		factor := p.Narrower(&blind, &s, least, most)
		assert.Greater(t, factor, last-1e-3, "%v", side)
		last = factor
		if side == 0.005 {
			assert.InDelta(t, 1, factor, 0.01)
		}
	}
	assert.Greater(t, last, 1.2)

	// What takes twenty more tries is where twenty more tries lead.
	s := setUp()
	next := p.Next(&s, tipScatter, least, most)
	s.Contact.Side, s.Gate.Gap = next.Side, next.Gap
	now := math.Log(p.Pivot().To/p.Pivot().From) / 2
	more, fewer := next.Floor, now
	for range 50 {
		if within := (more + fewer) / 2; p.MoreTries(next, within) > 20 {
			more = within
		} else {
			fewer = within
		}
	}
	assert.InEpsilon(t, now/fewer, p.Narrower(&blind, &s, least, most), 0.02)
}
