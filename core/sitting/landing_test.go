package sitting_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/shot"
	"pivotbench/core/sitting"
	"pivotbench/core/unit"
)

// Before any stroke, nine strokes in ten of testers drawn from the priors land in the
// interval: simulation, with every ball played.
func TestLandingOfTestersFromThePriors(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 3))
	for name, s := range map[string]struct {
		bridge unit.Length
		side   float64
	}{"parallel": {0, 0.4}, "back hand": {12 * unit.Inch, -0.3}} {
		meant := from(s.bridge, s.side)
		land, err := sitting.Prior(sitting.Habit).Landing(0, meant, line, 0.9)
		require.NoError(t, err)
		const testers = 6000
		inside, left := 0, 0
		for range testers {
			k, err := sitting.Draw(r).AtLine(meant, sitting.Habit, mark(0), r)
			require.NoError(t, err)
			switch at := float64(k.Seen.(sitting.Mark).At); {
			case at < land.From:
				left++
			case at <= land.To:
				inside++
			}
		}
		// One stroke in fifty is noted wrongly; of the rest 90 % are inside.
		assert.InDelta(t, 0.9, float64(inside)/testers, 0.03, name)
		assert.InDelta(t, 0.05, float64(left)/testers, 0.02, name)
	}
}

// Strokes narrow the interval around where they landed. A stroke's own interval is that
// of its shot.
func TestLandingNarrows(t *testing.T) {
	shots := make([]sitting.Stroke, 0, 8)
	for i := range 8 {
		s := from(0, 0.4-0.8*float64(i%2))
		k := marks(t, exact(13*unit.Inch), []shot.Shot{s})[0]
		shots = append(shots, k)
	}
	p := weigh(t, sitting.Habit, shots...)
	before, err := sitting.Prior(sitting.Habit).Landing(0, shots[0].Shot, line, 0.9)
	require.NoError(t, err)
	after, err := p.Landing(0, shots[0].Shot, line, 0.9)
	require.NoError(t, err)
	at := float64(shots[0].Seen.(sitting.Mark).At)
	assert.Less(t, after.From, at)
	assert.Greater(t, after.To, at)
	assert.Less(t, after.To-after.From, (before.To-before.From)/4)
	own, ok := p.Landed(0, 0.9)
	require.True(t, ok)
	assert.InDelta(t, after.From, own.From, 1e-9)
	assert.InDelta(t, after.To, own.To, 1e-9)

	half, ok := p.Landed(0, 0.5)
	require.True(t, ok)
	assert.Less(t, half.To-half.From, own.To-own.From)
	gate := weigh(t, sitting.Habit, sitting.Stroke{Shot: from(0, 0.4), Seen: sitting.Left})
	_, ok = gate.Landed(0, 0.9)
	assert.False(t, ok, "a stroke at a gate has no mark")
	slow := from(0, 0.4)
	slow.Speed = 0.1 * unit.MilePerHour
	_, err = p.Landing(0, slow, 80*unit.Inch, 0.9)
	assert.ErrorIs(t, err, sitting.ErrNoCrossing)

	// A ball that squirts more comes less far down the table. Between where it stops with
	// a cue of 6 in and with one of 70 in there is a line that only the second reaches.
	far := func(pivot unit.Length) unit.Length {
		s := from(0, 0.4)
		s.Cue.Pivot = pivot
		var res shot.Result
		shot.Play(&s, &res)
		stop, _ := res.Path.At(res.Path.Stop())
		return unit.Length(stop.Pos.Y)
	}
	between := (far(6*unit.Inch) + far(70*unit.Inch)) / 2
	p = weigh(t, sitting.SetUp{}, marks(t, exact(6*unit.Inch), []shot.Shot{from(0, 0.4), from(0, -0.4), from(0, 0.4), from(0, -0.4)})...)
	_, err = sitting.Prior(sitting.SetUp{}).Landing(0, from(0, 0.4), between, 0.9)
	assert.NoError(t, err)
	_, err = p.Landing(0, from(0, 0.4), between, 0.9)
	assert.ErrorIs(t, err, sitting.ErrNoCrossing)
}

// The sights that fit together are more probable than those that don't.
func TestEvidence(t *testing.T) {
	k := marks(t, exact(12*unit.Inch), []shot.Shot{from(0, 0.4)})[0]
	other := k
	m := k.Seen.(sitting.Mark)
	m.At = -m.At
	other.Seen = m
	seen, swapped := weigh(t, sitting.Habit, k, k, k), weigh(t, sitting.Habit, k, k, other)
	assert.Greater(t, seen.Evidence(), swapped.Evidence()+2)
}
