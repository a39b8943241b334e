package player_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/gear"
	"pivotbench/core/player"
	"pivotbench/core/shot"
	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// table is a shot of the class at Harbour Hall: their cue, ball and cloth.
func table() shot.Shot {
	return shot.Shot{
		Ball: gear.Ball{Radius: 1.125 * unit.Inch, Mass: 170 * unit.Gram},
		Cue: gear.Cue{
			Mass:  540 * unit.Gram,
			Tip:   gear.Tip{Dome: 10.6 * unit.Millimetre, Width: 13 * unit.Millimetre, Restitution: 0.75, Friction: 0.6},
			Pivot: 12 * unit.Inch, PivotSpin: 0.5,
		},
		Cloth:   gear.Cloth{Slide: 0.2, Roll: 0.01, SpinDecay: 10, Rebound: 0.5},
		Contact: strike.Contact{Side: side},
		Gate:    gear.Gate{Dist: 30 * unit.Inch, Gap: 2.75 * unit.Inch},
		Object:  shot.Object{Dist: 24 * unit.Inch, Opening: 4.5 * unit.Inch},
	}
}

const side = 0.4

// sheet is a card of two distances and three speeds.
func sheet() *player.Sheet {
	return &player.Sheet{
		Dists:  []unit.Length{24 * unit.Inch, 48 * unit.Inch},
		Speeds: []unit.Speed{4 * unit.MilePerHour, 7 * unit.MilePerHour, 12 * unit.MilePerHour},
		Side:   side,
	}
}

// choice is two distances and two speeds, marked by eye.
func choice() *player.Choice {
	return &player.Choice{
		Kind:  sitting.ByMark,
		Lines: []unit.Length{24 * unit.Inch, 48 * unit.Inch}, Speeds: []unit.Speed{4 * unit.MilePerHour, 12 * unit.MilePerHour},
		Shares: player.Shares, Side: side, Read: sitting.ByEye, Across: 50 * unit.Inch,
	}
}

// mark is a mark by eye where the ball of a stroke is to come to.
func mark(line unit.Length) sitting.Mark {
	return sitting.Mark{Line: line, Read: sitting.ByEye, Across: 50 * unit.Inch}
}

// start is the fit of a player of whom nothing is measured.
func start(t testing.TB, p player.Player, known *stat.Estimate[unit.Length]) *player.Fit {
	t.Helper()
	on := table()
	f, err := player.Start(&p, &on, known, sitting.Habit)
	require.NoError(t, err)
	return f
}

// plays has a tester play what is proposed.
func plays(t testing.TB, who sitting.Tester, p player.Player, f *player.Fit, strokes int, r *rand.Rand) *player.Fit {
	t.Helper()
	for range strokes {
		next := f.Outlook(sheet(), choice()).Next()
		require.NotEmpty(t, next)
		k, err := who.AtLine(next[0].Of(f), p.SetUp(sitting.Habit), mark(next[0].Line), r)
		require.NoError(t, err)
		f, err = f.Add(k)
		require.NoError(t, err)
	}
	return f
}

// true share of a tester: the felt one at which his ball arrives at the target, by
// halving, without his aim bias.
func share(t testing.TB, who sitting.Tester, p player.Player, f *player.Fit, dist unit.Length, speed unit.Speed) float64 {
	t.Helper()
	who.Aim = 0
	lo, hi := -3.0, 4.0
	for range 60 {
		mid := (lo + hi) / 2
		x, err := who.Play(f.Shot(dist, speed, side, mid), p.SetUp(sitting.Habit), dist)
		if err != nil && mid < 0 || err == nil && x < 0 { // more back hand sends a ball with right english further right
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// The shares that simulated players feel lie within their intervals as often as those
// claim, with a habit of the hands and without one. scripts/bench tells by hundreds how
// often (87 to 93 % is the aim). Here it is two cells of 48 players: if the intervals hold
// nine in ten, fewer than 37 players with the cell within come by chance once in
// 400 times, and the same for the gain.
func TestFeltSharesLieWithinTheirIntervals(t *testing.T) {
	if testing.Short() {
		t.Skip("plays hundreds of strokes")
	}
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 6))
	p := player.New("Ann")
	var gains, near, far int
	const players = 48
	for i := range players {
		who := sitting.Draw(r)
		if i%2 == 0 {
			who.Front = player.GainSpread * r.NormFloat64()
		}
		f := plays(t, who, p, start(t, p, nil), 6, r)
		if f.Gain().Holds(math.Exp(who.Front)) {
			gains++
		}
		card := f.Card(sheet())
		for in, c := range map[*int]player.Cell{&near: card[0][2], &far: card[1][1]} {
			require.NoError(t, c.Err)
			if c.Share.Holds(share(t, who, p, f, c.Dist, c.Speed)) {
				*in++
			}
		}
	}
	t.Log("gain", gains, "near and firm", near, "far and medium", far, "of", players)
	assert.GreaterOrEqual(t, gains, 37)
	assert.GreaterOrEqual(t, near, 37)
	assert.GreaterOrEqual(t, far, 37)
}

// measured is a pivot length that was measured to so many per cent.
func measured(pivot unit.Length, share float64) *stat.Estimate[unit.Length] {
	return &stat.Estimate[unit.Length]{Median: pivot, Interval: stat.Around(pivot, pivot*unit.Length(share))}
}

// Common practice, no source: one player, one bridge and one medium shot take 100 % back
// hand with a cue of 9.5 in natural pivot length and 70 % with one of 19 in. Geometry has
// the second at 53 % at most: with a level cue and an endless grip, the shares are as the
// inverse of the distances from the ball's centre, 10.6 in to 20.1 in. A player with that
// habit, fitted with the first cue at 100 % and at one share more, feels 70 % with the
// other.
func TestTheTradesPairOfCues(t *testing.T) {
	const ordinary, low, dist, medium = 9.5 * unit.Inch, 19 * unit.Inch, 36 * unit.Inch, 7 * unit.MilePerHour
	s := table()
	s.Elevation, s.Speed, s.Dist = 3*unit.Degree, medium, dist
	s.Hands.Grip = 30 * unit.Inch
	var res shot.Result
	s.Cue.Pivot = ordinary
	shot.Play(&s, &res)
	require.NoError(t, res.Reading.PivotEffective.Err())
	bridge := res.Reading.PivotEffective.Value // where 100 % is right
	s.Hands.Bridge, s.Cue.Pivot = bridge, low
	shot.Play(&s, &res)
	real := res.Reading.ShareBack.Value
	assert.Less(t, real, 0.53, "the geometry")
	gain := (1 - real) / (1 - 0.7)
	t.Logf("bridge %.1f in, real share %.0f %%, gain %.2f", float64(bridge/unit.Inch), 100*real, gain)

	p := player.New("Ben")
	p.Bridge = player.Measured[unit.Length]{Estimate: *measured(bridge, 0.01)}
	want := &player.Sheet{Dists: []unit.Length{dist}, Speeds: []unit.Speed{medium}, Side: side}
	r := rand.New(rand.NewPCG(7, 8))
	own100, within, best := 0, 0, 0.0
	const players = 10
	for range players {
		who := sitting.Tester{Pivot: ordinary, Scatter: 0.2 * unit.Degree, Front: math.Log(gain)}
		f := start(t, p, measured(ordinary, 0.05))
		for i := range 8 {
			felt := []float64{1, 0.5}[i/2%2]
			k, err := who.AtLine(f.Shot(dist, medium, side-2*side*float64(i%2), felt), p.SetUp(sitting.Habit), mark(dist), r)
			require.NoError(t, err)
			f, err = f.Add(k)
			require.NoError(t, err)
		}
		own := f.Card(want)[0][0]
		if own.Share.Holds(1) {
			own100++
		}
		other := table()
		c := f.WithCue(&other, *measured(low, 0.05)).Card(want)[0][0]
		if c.Share.Holds(0.7) {
			within++
		}
		best += c.Share.Median / players
		assert.Less(t, c.Real.Median, 0.53)
	}
	// If nine in ten hold, fewer than seven of ten do once in 80 times.
	assert.GreaterOrEqual(t, own100, 7)
	assert.GreaterOrEqual(t, within, 7)
	assert.InDelta(t, 0.7, best, 0.06)
}

// Cues of one pivot length take one share, whichever of them the player was fitted with;
// and of two measured cues the one with the longer pivot takes less back hand.
func TestEqualPivotsTakeEqualShares(t *testing.T) {
	p := player.New("Cleo")
	f := start(t, p, measured(12*unit.Inch, 0.05))
	other := table()
	same, longer := f.WithCue(&other, *measured(12*unit.Inch, 0.05)).Card(sheet()), f.WithCue(&other, *measured(16*unit.Inch, 0.05)).Card(sheet())
	for i, row := range f.Card(sheet()) {
		for j, c := range row {
			require.NoError(t, c.Err)
			assert.InDelta(t, c.Real.Median, same[i][j].Real.Median, 0.02)
			assert.Less(t, longer[i][j].Real.Median, c.Real.Median)
		}
	}
}

// A raised butt makes a slow ball swerve back, so it needs less; a firm ball hardly
// notices. In parallel aim it is the same.
func TestMoreElevationNeedsLessAtSlowSpeed(t *testing.T) {
	high := player.New("Dora")
	high.Elevation = player.Measured[unit.Angle]{Estimate: stat.NormalEstimate(6*unit.Degree, 0.3*unit.Degree)}
	low := high
	low.Elevation = player.Measured[unit.Angle]{Estimate: stat.NormalEstimate(2*unit.Degree, 0.3*unit.Degree)}
	cards := [2][][]player.Cell{}
	for i, p := range []player.Player{low, high} {
		cards[i] = start(t, p, measured(12*unit.Inch, 0.05)).Card(sheet())
	}
	less := func(dist, speed int) float64 {
		return cards[0][dist][speed].Real.Median - cards[1][dist][speed].Real.Median
	}
	for dist := range cards[0] {
		assert.Greater(t, less(dist, 0), 0.1)
		assert.Greater(t, less(dist, 0), 2*less(dist, 2))
		for speed := range cards[0][dist] {
			low, high := cards[0][dist][speed], cards[1][dist][speed]
			assert.Less(t, float64(high.Shift.Median), float64(low.Shift.Median))
			assert.Greater(t, float64(high.Swerve.Median), float64(low.Swerve.Median))
			assert.InDelta(t, float64(low.Squirt.Median), float64(high.Squirt.Median), 0.1*float64(unit.Degree))
		}
	}
}

// Identical players get identical cards, whatever they are called; and what is told of a
// player stays when more is told of another.
func TestIdenticalPlayersGetIdenticalCards(t *testing.T) {
	who := sitting.Tester{Pivot: 11 * unit.Inch, Scatter: 0.3 * unit.Degree, Front: 0.4}
	first, second := player.New("Ed"), player.New("Flo")
	a := plays(t, who, first, start(t, first, nil), 3, rand.New(rand.NewPCG(1, 1)))
	before := a.Card(sheet())
	b := plays(t, who, second, start(t, second, nil), 3, rand.New(rand.NewPCG(1, 1)))
	assert.Equal(t, before, b.Card(sheet()))
	_ = plays(t, who, first, a, 1, rand.New(rand.NewPCG(2, 2)))
	assert.Equal(t, before, a.Card(sheet()))
	assert.Equal(t, 3, a.N())
}

// The same strokes tell more when the cue was measured before.
func TestAKnownCueMakesTheCardNarrower(t *testing.T) {
	p := player.New("Gus")
	who := sitting.Tester{Pivot: 12 * unit.Inch, Scatter: 0.3 * unit.Degree, Front: 0.3}
	known, unknown := start(t, p, measured(12*unit.Inch, 0.05)), start(t, p, nil)
	r := rand.New(rand.NewPCG(3, 3))
	for range 6 {
		next := unknown.Outlook(sheet(), choice()).Next()[0]
		k, err := who.AtLine(next.Of(unknown), p.SetUp(sitting.Habit), mark(next.Line), r)
		require.NoError(t, err)
		unknown, err = unknown.Add(k)
		require.NoError(t, err)
		known, err = known.Add(k)
		require.NoError(t, err)
	}
	for i, row := range unknown.Card(sheet()) {
		for j, c := range row {
			with := known.Card(sheet())[i][j]
			assert.Less(t, with.Share.To-with.Share.From, c.Share.To-c.Share.From)
		}
	}
}

// Elevation and cloth act through swerve and the cue through squirt: the aim that a
// level cue needs is squirt alone, to the tolerance of the draws.
func TestTheNeedIsSquirtLessSwerve(t *testing.T) {
	for _, row := range start(t, player.New("Hal"), measured(12*unit.Inch, 0.05)).Card(sheet()) {
		for _, c := range row {
			need := math.Asin(float64(c.Shift.Median / c.Dist))
			assert.InDelta(t, float64(c.Squirt.Median-c.Swerve.Median), need, 0.05*float64(unit.Degree))
		}
	}
}

// With an object ball the aim takes throw too: right english throws a straight shot to
// the left, so the ball is sent to hit it further left of centre and the back hand does
// less.
func TestPocketingTakesThrow(t *testing.T) {
	f := start(t, player.New("Ira"), measured(12*unit.Inch, 0.05))
	straight, pocketed := sheet(), sheet()
	pocketed.Pocket = true
	a, b := f.Card(straight)[0][1], f.Card(pocketed)[0][1]
	require.NoError(t, b.Err)
	assert.NotEqual(t, a.Shift.Median, b.Shift.Median)
	// It arrives where the reading of the very shot has it.
	s := f.Shot(b.Dist, b.Speed, side, b.Real.Median)
	s.Cue.Pivot = 12 * unit.Inch
	var res shot.Result
	shot.Play(&s, &res)
	aim, err := s.ToPocket(&res)
	require.NoError(t, err)
	assert.InDelta(t, float64(aim.Heading), float64(res.Reading.Heading.Value), 0.1*float64(unit.Degree))
}
