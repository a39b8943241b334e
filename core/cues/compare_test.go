package cues_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/card"
	"pivotbench/core/cues"
	"pivotbench/core/motion"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

var (
	club  = scenario.Default().Scatter
	far   = []unit.Length{2 * unit.Foot, 4 * unit.Foot, 6 * unit.Foot}
	paces = []unit.Speed{5 * unit.MilePerHour, 7 * unit.MilePerHour, 10 * unit.MilePerHour}
)

func TestTheSameCueIsNoDifference(t *testing.T) {
	s := medium()
	a, b := cue(t, 12, 0.01), cue(t, 12, 0.01)
	assert.Equal(t, 0.5, cues.Less(a.Known, b.Known))
	for i, l := range cues.Landings(&s, &a, &b, club, far) {
		require.NoError(t, l.Err)
		assert.Equal(t, far[i], l.Dist)
		assert.Zero(t, l.Apart.Median)
		assert.Equal(t, cues.Same, l.Likeness())
	}
	// Known less well, it is still none that shows, but it might be.
	a, b = cue(t, 12, 0.5), cue(t, 12, 0.5)
	for _, l := range cues.Landings(&s, &a, &b, club, far) {
		require.NoError(t, l.Err)
		assert.Zero(t, l.Apart.Median)
		assert.Equal(t, cues.Alike, l.Likeness())
	}
}

// With a level cue nothing swerves: a parallel stroke to the right sends the
// ball left by its squirt, D sin α at the distance D.
func TestLandingsAreTheSquirtWithALevelCue(t *testing.T) {
	s := medium()
	s.Elevation, s.Hands.Back, s.Hands.Front = 0, 0, 0
	maple, low := cue(t, 9.5, 0.1), cue(t, 19, 0.1)
	a, b := maple.Known.Squirt(s.Ball, 0.4), low.Known.Squirt(s.Ball, 0.4)
	for _, l := range cues.Landings(&s, &maple, &low, club, far) {
		require.NoError(t, l.Err)
		d := float64(l.Dist)
		assert.InDelta(t, d*(b.Median.Sin()-a.Median.Sin()), float64(l.Apart.Median), 1e-9)
		half := math.Hypot(float64(a.To-a.From), float64(b.To-b.From)) / 2 * d
		assert.InEpsilon(t, half, float64(l.Apart.To-l.Apart.From)/2, 0.01)
		assert.InDelta(t, float64(l.Apart.Median), float64(l.Apart.From+l.Apart.To)/2, 1e-12)
		assert.Equal(t, cues.Differs, l.Likeness(), "%v", l)
	}
}

// Of two cues that were measured in one sitting, what they share cancels where they land:
// two equally large errors with a correlation r leave √(1 − r) of their difference.
func TestLandingsOfCuesOfOneSitting(t *testing.T) {
	s := medium()
	a, b := cue(t, 12, 0.1), cue(t, 12.5, 0.1)
	alone := cues.Landings(&s, &a, &b, club, far)
	const r = 0.64
	for _, c := range []*cues.Candidate{&a, &b} {
		c.Known.Shared = []cues.Share{{Sitting: "Tuesday", By: [cues.Causes]float64{math.Sqrt(r) * c.Known.Spread}}}
	}
	for i, l := range cues.Landings(&s, &a, &b, club, far) {
		assert.Equal(t, alone[i].Apart.Median, l.Apart.Median)
		assert.InEpsilon(t, math.Sqrt(1-r), float64((l.Apart.To-l.Apart.From)/(alone[i].Apart.To-alone[i].Apart.From)), 0.01)
	}
}

func TestLikeness(t *testing.T) {
	of := func(from, mid, to unit.Length) cues.Likeness {
		l := cues.Landing{Apart: stat.Estimate[unit.Length]{Median: mid, Interval: stat.Interval[unit.Length]{From: from, To: to}}, Notice: 4}
		return l.Likeness()
	}
	assert.Equal(t, cues.Same, of(-3, 0, 3))
	assert.Equal(t, cues.Alike, of(-3, 1, 5))
	assert.Equal(t, cues.Alike, of(-5, -1, 3))
	assert.Equal(t, cues.Perhaps, of(3, 5, 7))
	assert.Equal(t, cues.Perhaps, of(-7, -5, -3))
	assert.Equal(t, cues.Differs, of(5, 7, 9))
	assert.Equal(t, cues.Differs, of(-9, -7, -5))
	// Just what is noticed is not yet more.
	assert.Equal(t, cues.Same, of(-4, 0, 4))
	assert.Equal(t, cues.Alike, of(3, 4, 5))
	assert.Equal(t, cues.Perhaps, of(4, 5, 6))
	assert.Equal(t, cues.Perhaps, of(-6, -5, -4))
}

func TestLandingsSayWhyThereAreNone(t *testing.T) {
	s := medium()
	a, b := cue(t, 9.5, 0.1), cue(t, 19, 0.1)
	s.Speed = 1.5 * unit.MilePerHour
	got := cues.Landings(&s, &a, &b, club, far)
	assert.NoError(t, got[0].Err)
	assert.ErrorIs(t, got[2].Err, motion.ErrStops)

	s = medium()
	blunt := b
	blunt.Gear.Tip.Width = 8 * unit.Millimetre
	for _, pair := range [][2]*cues.Candidate{{&a, &blunt}, {&blunt, &a}} {
		for _, l := range cues.Landings(&s, pair[0], pair[1], club, far) {
			assert.ErrorIs(t, l.Err, strike.ErrOffTip)
		}
	}

	// A hair further out it is off the tip, and no slope says what scatters.
	edge := medium()
	a.Gear.Tip.Friction, b.Gear.Tip.Friction = 10, 10
	edge.Contact.Side = float64(a.Gear.Tip.Width/(2*a.Gear.Tip.Dome)) - 1e-9
	for _, l := range cues.Landings(&edge, &a, &b, club, far) {
		assert.ErrorIs(t, l.Err, strike.ErrOffTip)
	}
}

// Against players: each plays Evening shots with either of two cues and holds
// the means apart at the 5 % level; of a difference that is just noticeable,
// four of five find it out, and of none, one in twenty thinks so.
func TestNoticeableIsWhatAnEveningShows(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	const a, b, n = 4.0, 7.0, 5000
	found := func(apart float64) float64 {
		count := 0
		for range n {
			sum := 0.0
			for range cues.Evening {
				sum += apart + a*rng.NormFloat64() - b*rng.NormFloat64()
			}
			if math.Abs(sum/cues.Evening)/math.Sqrt((a*a+b*b)/cues.Evening) > 1.959964 {
				count++
			}
		}
		return float64(count) / n
	}
	assert.InDelta(t, 0.8, found(float64(cues.Noticeable(a, b))), 0.02)
	assert.InDelta(t, 0.05, found(0), 0.01)
}

// Cohen 1988, table 2.4.1 (from memory): 26 a group for an effect of 0.8
// standard deviations, with t where this has the Normal's 25.
func TestNoticeableAgainstCohen(t *testing.T) {
	effect := float64(cues.Noticeable(1, 1))
	assert.InDelta(t, 26, cues.Evening*effect*effect/(0.8*0.8), 1.6)
}

// From 19 in to 19 in there is nothing to relearn.
func TestSwitchBetweenEqualCues(t *testing.T) {
	s := medium()
	a, b := cue(t, 19, 0.1), cue(t, 19, 0.3)
	changes := cues.Switch(&s, &a, &b, club, far, paces)
	assert.Len(t, changes, len(far)*len(paces))
	for _, c := range changes {
		require.NoError(t, c.Err)
		assert.Zero(t, c.Shift)
		assert.Zero(t, c.Widths)
		assert.Equal(t, c.From, c.To)
		assert.False(t, c.Relearn())
	}
}

// Each change is judged by playing it: the new cue, aimed as the old one was
// but for the change, pockets the ball.
func TestSwitchedAimPocketsTheBall(t *testing.T) {
	s := medium()
	low, maple := cue(t, 19, 0.1), cue(t, 9.5, 0.1)
	changes := cues.Switch(&s, &low, &maple, club, far, paces)
	last := math.Inf(1)
	for _, c := range changes {
		require.NoError(t, c.Err)
		size := math.Abs(float64(c.Shift))
		assert.LessOrEqual(t, size, last, "the worst first")
		last = size
		assert.InDelta(t, float64(c.Shift)/0.013, c.Widths, 1e-9)
		assert.Positive(t, c.Shift, "right english squirts to the left: aim further right with more of it")
		assert.True(t, c.Relearn())

		with := func(cue *cues.Candidate, more unit.Length) shot.Pot {
			at := cue.With(&s)
			at.Dist, at.Speed = c.Dist, c.Speed
			old := low.With(&at)
			var res shot.Result
			shot.Play(&old, &res)
			aim, err := old.ToPocket(&res)
			require.NoError(t, err)
			sin := aim.Heading.Sin() + float64(more/c.Dist)
			at.Hands.Back, at.Hands.Front, at.AimOff = 0, 0, unit.Angle(math.Asin(sin))
			var path motion.Path
			var pot shot.Pot
			require.NoError(t, at.Send(&path))
			require.NoError(t, at.Sink(&path, &pot))
			return pot
		}
		same, moved := with(&maple, 0), with(&maple, c.Shift)
		assert.InDelta(t, 0, float64(moved.Miss), 1e-6)
		assert.True(t, same.Missed != nil || math.Abs(float64(same.Miss)) > 0.005, "%v", same.Miss)
	}
}

func TestSwitchPutsWhatCannotBePlayedLast(t *testing.T) {
	s := medium()
	a, b := cue(t, 19, 0.1), cue(t, 9.5, 0.1)
	changes := cues.Switch(&s, &a, &b, club, far, []unit.Speed{1.5 * unit.MilePerHour, 7 * unit.MilePerHour})
	require.Len(t, changes, 6)
	bad := 0
	for _, c := range changes {
		if c.Err != nil {
			bad++
			assert.False(t, c.Relearn())
			continue
		}
		assert.Zero(t, bad, "all that can be come first")
	}
	assert.NotZero(t, bad)

	blunt := b
	blunt.Gear.Tip.Width = 8 * unit.Millimetre
	for _, c := range cues.Switch(&s, &a, &blunt, club, far, paces) {
		assert.ErrorIs(t, c.Err, strike.ErrOffTip)
	}
}

// A change has an answer where both cues' cards have one: at speeds that are just
// enough for one of the two, whichever is the old one, it says why there is none.
func TestSwitchNeedsBothCues(t *testing.T) {
	s := medium()
	a, b := cue(t, 19, 0.1), cue(t, 9.5, 0.1)
	paces := make([]unit.Speed, 400)
	for i := range paces {
		paces[i] = (1 + unit.Speed(i)/100) * unit.MilePerHour
	}
	dists := []unit.Length{3 * unit.Foot}
	why := func(c *cues.Candidate) map[unit.Speed]error {
		out, with := map[unit.Speed]error{}, c.With(&s)
		for _, cell := range card.Make(&with, dists, paces)[0] {
			out[cell.Speed] = cell.Err
		}
		return out
	}
	first, second := why(&a), why(&b)
	only := map[bool]int{}
	for _, turned := range []bool{false, true} {
		from, to := &a, &b
		if turned {
			from, to, first, second = to, from, second, first
		}
		for _, c := range cues.Switch(&s, from, to, club, dists, paces) {
			switch was, is := first[c.Speed], second[c.Speed]; {
			case was != nil:
				assert.Equal(t, was, c.Err)
				if is == nil {
					only[false]++
				}
			case is != nil:
				assert.Equal(t, is, c.Err)
				only[true]++
			default:
				assert.NoError(t, c.Err)
			}
		}
	}
	assert.NotZero(t, only[false], "some only the new cue can play")
	assert.NotZero(t, only[true], "and some only the old one")
}
