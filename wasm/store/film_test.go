package store_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/sitting"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

// seenOnFilm is a stroke that a film showed. Its figures have no short text in any unit.
func seenOnFilm() sitting.Film {
	return sitting.Film{
		Launch: -math.Pi / 62, Lines: []unit.Length{30 * unit.Inch}, At: []unit.Length{-1.0 / 21}, Speed: 31.0 / 7,
		Cov: [][]float64{{1.0 / 7e5, 1.0 / 9e5, 1e-7 / 3}, {1.0 / 9e5, 1.0 / 8e5, 0}, {1e-7 / 3, 0, 1.0 / 300}}, Across: 50 * unit.Inch,
	}
}

// filmed is the record of that stroke.
func filmed() store.Stroke {
	k := store.Filmed(seenOnFilm())
	k.Cue, k.Link, k.When = "House 4", "v=1&table=9ft", "2026-11-24T19:04:00+01:00"
	return k
}

// A filmed stroke that is written and read again gives the computation the same numbers,
// to the bit.
func TestFilmedStrokesRoundTrip(t *testing.T) {
	records := store.Records{Strokes: []store.Stroke{filmed()}}
	read, err := store.Decode(records.Encode())
	require.NoError(t, err)
	assert.Equal(t, records.Strokes, read.Strokes)
	k, err := read.Strokes[0].Stroke(1, 0.5)
	require.NoError(t, err)
	assert.Equal(t, seenOnFilm(), k.Seen)
	assert.NoError(t, k.Possible())
}

// A copy that knows no films skips that field, and finds a mark with its reading error.
func TestFilmedStrokeIsAlsoAMark(t *testing.T) {
	k := filmed()
	k.Film = store.Film{}
	got, err := k.Stroke(0, 0.5)
	require.NoError(t, err)
	mark := got.Seen.(sitting.Mark)
	assert.Equal(t, seenOnFilm().At[0], mark.At)
	assert.Equal(t, 30*unit.Inch, mark.Line)
	assert.InDelta(t, math.Sqrt(1.0/8e5), float64(mark.Read), 1e-15)
}

func TestFilmsThatCantBe(t *testing.T) {
	for _, c := range []struct {
		spoil func(*store.Stroke)
		want  string
	}{
		{func(k *store.Stroke) { k.Film.Launch = "left" }, "the film's launch: “left” is not an angle"},
		{func(k *store.Stroke) { k.Film.Launch = "90deg" }, "launch: “90deg”, allowed: less than 90°"},
		{func(k *store.Stroke) { k.Film.Speed = "" }, "the film's speed: “” is not a speed"},
		{func(k *store.Stroke) { k.Film.Speed = "0mph" }, "speed: “0mph”, allowed: more than 0 and up to 60 mph"},
		{func(k *store.Stroke) { k.Film.Speed = "61mph" }, "“61mph”"},
		{func(k *store.Stroke) { k.Film.Cov = "1 0 1" }, "(cov) “1 0 1”, allowed: 6 numbers"},
		{func(k *store.Stroke) { k.Film.Cov = "1 2 1 0 0 1" }, "positive definite"},
		{func(k *store.Stroke) { k.Film.Cov = "1 x 1 0 0 1" }, "“1 x 1 0 0 1”"},
		{func(k *store.Stroke) { k.Film.Cov = strings.Repeat("1 ", 1000) }, "6 numbers"},
		{func(k *store.Stroke) { k.See, k.Mark, k.At, k.Read = "clean", "", "", "" }, "a stroke at a gate, “clean”, can't have a film"},
		{func(k *store.Stroke) { k.Mark, k.At, k.Read = "", "", "" }, "a stroke needs what the ball hit"},
		{func(k *store.Stroke) { k.At = "9m" }, "(at) “9m”"},
	} {
		k := filmed()
		c.spoil(&k)
		assert.Contains(t, strings.Join(k.Faults(), "; "), c.want)
	}
}
