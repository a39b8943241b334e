package player_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/player"
	"pivotbench/core/sitting"
	"pivotbench/core/unit"
)

// The first strokes use the back hand and something else: one share alone can't tell the
// cue from the hands.
func TestProposalsTellTheHandsFromTheCue(t *testing.T) {
	p := player.New("Ned")
	f := start(t, p, nil)
	who := sitting.Tester{Pivot: 11 * unit.Inch, Scatter: 0.2 * unit.Degree, Front: 0.5}
	shares, sides := map[float64]bool{}, map[bool]bool{}
	for range 6 {
		o := f.Outlook(sheet(), choice())
		next := o.Next()
		for i, n := range next {
			assert.True(t, n.Tells >= 0 && n.Tells < 1)
			if i > 0 {
				assert.LessOrEqual(t, n.Tells, next[i-1].Tells)
			}
		}
		shares[next[0].Share], sides[next[0].Side > 0] = true, true
		x, err := who.Play(next[0].Of(f), p.SetUp(sitting.Habit), next[0].Line)
		require.NoError(t, err)
		m := mark(next[0].Line)
		m.At = x
		f, err = f.Add(sitting.Stroke{Shot: next[0].Of(f), Seen: m})
		require.NoError(t, err)
	}
	assert.Greater(t, len(shares), 1)
	assert.Len(t, sides, 2, "an aim bias and squirt are told apart by english to both sides")
}

// An outcome at a gate is one of three, and tells less than where the ball was.
func TestAGateTellsLessThanAMark(t *testing.T) {
	f := start(t, player.New("Ola"), nil)
	marks, gate := choice(), choice()
	marks.Lines, gate.Kind = []unit.Length{30 * unit.Inch}, sitting.ByGate
	at := map[player.Proposal]float64{}
	same := func(p player.Proposal) player.Proposal {
		p.Kind, p.Tells = sitting.ByMark, 0
		return p
	}
	for _, n := range f.Outlook(sheet(), marks).Next() {
		at[same(n)] = n.Tells
	}
	seen := 0
	for _, n := range f.Outlook(sheet(), gate).Next() {
		if tells, ok := at[same(n)]; ok {
			assert.Less(t, n.Tells, tells)
			seen++
		}
	}
	assert.Greater(t, seen, 10)
}

// More strokes are needed at first than later, fewer with a known cue, and there is
// always a least number.
func TestWhenMoreStrokesWouldNotChangeTheCard(t *testing.T) {
	p := player.New("Pia")
	who := sitting.Tester{Pivot: 11 * unit.Inch, Scatter: 0.25 * unit.Degree}
	f := start(t, p, nil)
	first, ok := f.Outlook(sheet(), choice()).Enough(30)
	require.True(t, ok)
	known, ok := start(t, p, measured(11*unit.Inch, 0.05)).Outlook(sheet(), choice()).Enough(30)
	require.True(t, ok)
	assert.LessOrEqual(t, known, first)
	assert.GreaterOrEqual(t, known, 6)
	n := 0
	for ; n < 30; n++ {
		o := f.Outlook(sheet(), choice())
		if left, ok := o.Enough(30); ok && left == 0 {
			break
		}
		next := o.Next()[0]
		x, err := who.Play(next.Of(f), p.SetUp(sitting.Habit), next.Line)
		require.NoError(t, err)
		m := mark(next.Line)
		m.At = x
		f, err = f.Add(sitting.Stroke{Shot: next.Of(f), Seen: m})
		require.NoError(t, err)
	}
	assert.GreaterOrEqual(t, n, 6)
	assert.LessOrEqual(t, n, 2*first)
	_, ok = f.Outlook(sheet(), choice()).Enough(0)
	assert.True(t, ok)
	done := f.Learned(p)
	assert.IsType(t, player.Measured[float64]{}, done.Gain)
	assert.Equal(t, p.Gain, start(t, p, nil).Learned(p).Gain, "without strokes nothing is learned")
	assert.InDelta(t, 0, float64(done.Bias.Best()/unit.Degree), 0.15)
}
