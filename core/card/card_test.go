package card_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/card"
	"pivotbench/core/motion"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/stance"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// medium returns the shot of an empty link: right english, the butt up 3°.
func medium() shot.Shot {
	sc := scenario.Default()
	return sc.Shot()
}

func inches(of ...unit.Length) (out []unit.Length) {
	for _, l := range of {
		out = append(out, l*unit.Inch)
	}
	return out
}

func milesPerHour(of ...unit.Speed) (out []unit.Speed) {
	for _, v := range of {
		out = append(out, v*unit.MilePerHour)
	}
	return out
}

var (
	dists  = inches(12, 24, 36, 48, 60)
	speeds = milesPerHour(4, 5.5, 7, 9, 12, 16)
)

// replay plays a cell with a share. It returns where the object ball crosses the line of
// the pocket's mouth, positive to the right of its middle: the sideways part of its
// distance from there at the pocket's distance.
func replay(t *testing.T, s shot.Shot, c card.Cell, share float64) float64 {
	t.Helper()
	s.Dist, s.Speed, s.ByStroke = c.Dist, c.Speed, false
	s.Hands.Back, s.Hands.Front = share, 1-share
	var res shot.Result
	shot.Play(&s, &res)
	require.NoError(t, res.Launched)
	var pot shot.Pot
	require.NoError(t, s.Sink(&res.Path, &pot))
	when, err := pot.Object.AtCircle(s.Object.Dist)
	require.NoError(t, err)
	at, _ := pot.Object.At(when)
	return at.Pos.X*math.Cos(float64(s.Object.Cut)) - at.Pos.Y*math.Sin(float64(s.Object.Cut))
}

// The share of each cell, when played, drops the ball in the middle of the pocket. The
// round share passes where the card says, and is the nearest of the five.
func TestCellsFedForwardDrop(t *testing.T) {
	rng := rand.New(rand.NewPCG(81, 82))
	dropped, missed := 0, 0
	for i := range 40 {
		s := medium()
		if i > 0 {
			s.Contact = strike.Contact{Side: 0.7*rng.Float64() - 0.35, Height: 0.5*rng.Float64() - 0.25}
			s.Object.Cut = unit.Angle(100*rng.Float64()-50) * unit.Degree
			s.Elevation = unit.Angle(8*rng.Float64()) * unit.Degree
			s.Cue.Pivot = unit.Length(9+20*rng.Float64()) * unit.Inch
			s.ByStroke = i%2 == 0
		}
		for row, cells := range card.Make(&s, dists, speeds) {
			require.Len(t, cells, len(speeds))
			for column, c := range cells {
				require.Equal(t, dists[row], c.Dist)
				require.Equal(t, speeds[column], c.Speed)
				if c.Err != nil {
					continue
				}
				require.NoError(t, c.Share.Err())
				require.InDelta(t, 0, replay(t, s, c, c.Share.Value), 1e-9, "%+v", c)
				at := s
				at.Dist = c.Dist
				require.Equal(t, at.ParallelShift(c.Heading), c.Shift)

				for _, r := range card.Rounds {
					require.GreaterOrEqual(t, math.Abs(r-c.Share.Value), math.Abs(c.Round-c.Share.Value))
				}
				require.Contains(t, card.Rounds, c.Round)

				tried := s
				tried.Dist, tried.Speed, tried.ByStroke = c.Dist, c.Speed, false
				tried.Hands.Back, tried.Hands.Front = c.Round, 1-c.Round
				var path motion.Path
				var pot shot.Pot
				require.NoError(t, tried.Send(&path))
				if tried.Sink(&path, &pot) != nil || pot.Missed != nil {
					require.True(t, c.Misses, "it never gets to the pocket")
					missed++
					continue
				}
				x := replay(t, s, c, c.Round)
				require.InDelta(t, x, float64(c.Miss), 1e-12)
				half := float64(s.Object.Opening/2 - s.Ball.Radius)
				require.Equal(t, math.Abs(x) > half, c.Misses)
				if c.Misses {
					missed++
				} else {
					dropped++
				}
			}
		}
	}
	assert.Greater(t, dropped, 200)
	assert.Greater(t, missed, 200)
}

// The direction of the rounding decides the side of the miss: with right english a larger
// back-hand share turns the cue further right.
func TestMissHasTheSideOfTheRounding(t *testing.T) {
	s := medium()
	seen := 0
	for _, cells := range card.Make(&s, dists, speeds) {
		for _, c := range cells {
			require.NoError(t, c.Err)
			if math.Abs(c.Round-c.Share.Value) < 1e-6 || c.Misses && c.Miss == 0 {
				continue
			}
			seen++
			// Further right, the cue ball meets the straight object ball on its right and
			// sends it left.
			assert.Negative(t, (c.Round-c.Share.Value)*float64(c.Miss), "%+v", c)
		}
	}
	assert.Greater(t, seen, 20)
}

// Common practice, no source: a cue of lower deflection takes smaller back-hand shares
// all over the card, for the same player. With the butt up, softer and longer shots take
// smaller ones.
func TestShares(t *testing.T) {
	plain, low := medium(), medium()
	plain.Cue.Pivot, low.Cue.Pivot = 9.5*unit.Inch, 15*unit.Inch
	lower := card.Make(&low, dists, speeds)
	for i, cells := range card.Make(&plain, dists, speeds) {
		for j, c := range cells {
			require.NoError(t, c.Err)
			require.NoError(t, lower[i][j].Err)
			assert.Less(t, lower[i][j].Share.Value, c.Share.Value)
		}
	}
	s := medium()
	s.Elevation, s.Object.Cut = 5*unit.Degree, 0
	cells := card.Make(&s, dists, speeds)
	assert.Less(t, cells[0][0].Share.Value, cells[0][5].Share.Value)
	assert.Less(t, cells[4][0].Share.Value, cells[4][5].Share.Value)
	assert.Less(t, cells[4][0].Share.Value, cells[0][0].Share.Value)
}

// The aim allows for throw: on a straight shot right english throws the object ball left,
// so the cue is aimed further left than for the target, to meet the object ball further
// to its left.
func TestTheAimAllowsForThrow(t *testing.T) {
	s := medium()
	s.Elevation = 0
	c := card.Make(&s, inches(36), milesPerHour(7))[0][0]
	require.NoError(t, c.Err)
	var res shot.Result
	shot.Play(&s, &res)
	assert.Negative(t, float64(res.Reading.Throw.Value))
	assert.Less(t, c.Heading, res.Reading.Aim.Value)
}

// A cell without an answer has the reason, and the other cells are not affected.
func TestCellsWithoutAnswer(t *testing.T) {
	s := medium()
	cells := card.Make(&s, inches(12, 36), milesPerHour(0.2, 1.6, 7))
	assert.ErrorIs(t, cells[1][0].Err, motion.ErrStops)
	assert.ErrorIs(t, cells[1][1].Err, shot.ErrObjectStops)
	assert.NoError(t, cells[1][2].Err)
	assert.Equal(t, card.Cell{Dist: 36 * unit.Inch, Speed: cells[1][0].Speed, Err: motion.ErrStops}, cells[1][0], "nothing else is set")

	miscue := medium()
	miscue.Contact.Side = 0.6
	assert.ErrorIs(t, card.Make(&miscue, dists, speeds)[0][0].Err, strike.ErrMiscue)

	// Without sidespin there is an aim, but nothing to share.
	centre := medium()
	centre.Contact.Side = 0
	c := card.Make(&centre, inches(36), milesPerHour(7))[0][0]
	assert.NoError(t, c.Err)
	assert.InDelta(t, 0, float64(c.Heading), 1e-12)
	assert.ErrorIs(t, c.Share.Err(), stance.ErrNoSide)
	assert.False(t, c.Misses)

	assert.Empty(t, card.Make(&s, nil, speeds))
}

// A round share that turns the cue away from the object ball misses it: the cell has no
// offset, but counts as a miss.
func TestARoundShareThatMissesTheBall(t *testing.T) {
	s := medium()
	s.Hands.Bridge, s.Contact.Side, s.Object.Cut = 4*unit.Inch, 0.45, 70*unit.Degree
	seen := false
	for _, cells := range card.Make(&s, inches(60, 80, 100), speeds) {
		for _, c := range cells {
			if c.Err == nil && c.Misses && c.Miss == 0 {
				seen = true
			}
		}
	}
	assert.True(t, seen)
}

// A card of 5 distances and 6 speeds.
func BenchmarkMake(b *testing.B) {
	s := medium()
	b.ReportAllocs()
	for b.Loop() {
		card.Make(&s, dists, speeds)
	}
}

// Common practice, no source: hands are shared by quarters.
func TestRoundsAreQuarters(t *testing.T) {
	require.Len(t, card.Rounds, 5)
	for i, r := range card.Rounds {
		assert.Equal(t, float64(i)/4, r)
	}
}
