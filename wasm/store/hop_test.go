package store_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/hop"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

const hopLink = "v=1&elev=40deg&gate=12in&gap=2in"

func TestHopsTravel(t *testing.T) {
	k := store.Records{Hops: []store.Hop{
		{Link: hopLink, Saw: "cleared", When: "2026-11-24T19:00:00Z"},
		{Link: hopLink, Saw: "touched", High: "0.75in"},
		{Link: hopLink, Saw: "rose", High: "0mm"},
	}}
	back, err := store.Decode(k.Encode())
	require.NoError(t, err)
	assert.Equal(t, k.Hops, back.Hops)
	assert.NotContains(t, store.Records{}.Encode(), "hops", "a file without hops is as it was")

	for i, want := range []hop.Seen{{What: hop.Cleared}, {What: hop.Touched, High: 0.75 * unit.Inch}, {What: hop.Rose}} {
		seen, err := k.Hops[i].Seen()
		require.NoError(t, err)
		assert.Equal(t, want.What, seen.What)
		assert.InDelta(t, float64(want.High), float64(seen.High), 1e-12)
		assert.Equal(t, 12*unit.Inch, seen.Shot.Gate.Dist)
	}
}

func TestHopsThatCantBe(t *testing.T) {
	for _, c := range []struct {
		h    store.Hop
		want string
	}{
		{store.Hop{Link: hopLink, Saw: "flew"}, "(saw): “flew”, allowed: cleared, touched, rose"},
		{store.Hop{Link: hopLink, Saw: "rose"}, "type how far the ball rose"},
		{store.Hop{Link: hopLink, Saw: "rose", High: "-1in"}, "more than 0 and at most 1 m"},
		{store.Hop{Link: hopLink, Saw: "cleared", High: "0in"}, "more than 0 and at most 1 m"},
		{store.Hop{Link: hopLink, Saw: "cleared", High: "1.1m"}, "more than 0 and at most 1 m"},
		{store.Hop{Link: hopLink, Saw: "cleared", High: "tall"}, "“tall”"},
		{store.Hop{Link: "v=1&elev=95deg", Saw: "cleared"}, "95deg"},
	} {
		_, err := store.Decode(store.Records{Hops: []store.Hop{{Link: hopLink, Saw: "cleared"}, c.h}}.Encode())
		require.Error(t, err)
		assert.Contains(t, err.Error(), "hop 2: ")
		assert.Contains(t, err.Error(), c.want)
	}
}

// A hop counts for the ball, cue and cloth it was seen with, whatever the stroke.
func TestHopsLike(t *testing.T) {
	k := store.Records{Hops: []store.Hop{
		{Link: hopLink, Saw: "cleared"},
		{Link: hopLink + "&bounce=0.85", Saw: "cleared"},
		{Link: hopLink + "&hop=0.6", Saw: "cleared"},
		{Link: hopLink + "&ball=snooker", Saw: "cleared"},
		{Link: hopLink + "&side=0.1&stroke=9mph", Saw: "touched"},
	}}
	s := scenario.Default()
	require.Len(t, k.HopsLike(&s), 2)
	assert.Equal(t, hop.Touched, k.HopsLike(&s)[1].What)
	s.Bounce = 0.85
	assert.Len(t, k.HopsLike(&s), 1)
}
