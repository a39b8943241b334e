package main

import (
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/player"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

func committed(t *testing.T) store.Records {
	t.Helper()
	text, err := os.ReadFile("../../site/example.json")
	require.NoError(t, err)
	k, err := store.Decode(string(text))
	require.NoError(t, err)
	assert.Equal(t, string(text), k.Encode(), "as this version writes it")
	return k
}

// The committed file is what the generator gives. Only the figures measured, and the
// lessons with them, may differ in their last digits, since processors round differently.
func TestTheFileIsTheClass(t *testing.T) {
	text, err := class()
	require.NoError(t, err)
	now, err := store.Decode(text)
	require.NoError(t, err)
	then := committed(t)
	const again = "if the model has changed: go run ./scripts/example"
	assert.Equal(t, then.Strokes, now.Strokes, again)
	assert.Equal(t, then.Tables, now.Tables)
	assert.Equal(t, then.Readings, now.Readings)
	assert.Len(t, now.Lessons, len(then.Lessons))
	assert.Equal(t, then.Turns, now.Turns, again)
	require.Len(t, now.Players, len(pupils))
	for i, p := range now.Players {
		was := then.Players[i]
		assert.InDelta(t, gain(t, was), gain(t, p), 1e-3, again)
		was.Spread, was.Bias, was.Gain, p.Spread, p.Bias, p.Gain = "", "", "", "", "", ""
		assert.Equal(t, was, p, again)
	}
	require.Len(t, now.Cues, len(then.Cues))
	for i := range then.Cues {
		assert.InDelta(t, metres(t, then.Cues[i].Pivot), metres(t, now.Cues[i].Pivot), 1e-3, again)
	}
}

func metres(t *testing.T, text string) float64 {
	t.Helper()
	v, err := unit.Parse(text, unit.LengthKind, "")
	require.NoError(t, err)
	return v
}

// gain is the median of a player's gain, or the usual one.
func gain(t *testing.T, p store.Player) float64 {
	t.Helper()
	read, wrong := p.Player()
	require.Nil(t, wrong, p.Name)
	return read.Gain.Best()
}

// The players' intervals hold what their hands really do, and the one who has just begun
// has nothing saved.
func TestThePlayersArePlausible(t *testing.T) {
	k := committed(t)
	require.Len(t, k.Players, len(pupils))
	for i, want := range pupils {
		p, wrong := k.Players[i].Player()
		require.Nil(t, wrong)
		assert.Equal(t, want.Name, p.Name)
		assert.Len(t, k.TurnsOf(want.Name), want.strokes)
		assert.Equal(t, want.saved, p.Fitted != "")
		if gain, learned := p.Gain.(player.Measured[float64]); learned {
			assert.True(t, gain.Holds(want.gain), "%s: %v", p.Name, gain)
		}
	}
}

// There is something of everything, and the intervals hold the pivot lengths that the
// strokes were played with.
func TestTheClassIsPlausible(t *testing.T) {
	k := committed(t)
	assert.Len(t, k.Tables, 2)
	assert.NotEmpty(t, k.Readings)
	assert.Len(t, k.Lessons, 3)
	for _, c := range classCues {
		i := slices.IndexFunc(k.Cues, func(r store.CueRecord) bool { return r.Name == c.name && strings.HasPrefix(r.When, "2026-11-24") })
		require.GreaterOrEqual(t, i, 0, c.name)
		assert.LessOrEqual(t, metres(t, k.Cues[i].From), float64(c.pivot), c.name)
		assert.GreaterOrEqual(t, metres(t, k.Cues[i].To), float64(c.pivot), c.name)
		n := 0
		for _, s := range k.Strokes {
			if s.Cue == c.name {
				assert.Equal(t, c.marks, s.Mark != "")
				n++
			}
		}
		assert.Equal(t, c.strokes, n)
	}
	for i := range k.Lessons {
		l := &k.Lessons[i]
		assert.True(t, strings.HasPrefix(l.Title, "Example: "))
		s := l.Scene(len(l.Steps)-1, "in")
		_, met, err := l.Question.Try(&s)
		assert.NoError(t, err, l.Title)
		assert.False(t, met, "%s: there is something to find", l.Title)
		_, err = l.Question.Answer(&s)
		assert.NoError(t, err, l.Title)
	}
}
