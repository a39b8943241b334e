package store_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/sitting"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

// marked is a stroke whose ball was marked 1.9 in to the left, 30 in down the table.
func marked() store.Stroke {
	return store.Stroke{Cue: "House 4", Link: "v=1&back=0&table=9ft", Mark: "-1.9in", At: "30in", Read: "3mm"}
}

func TestStrokesAsTheComputationTakesThem(t *testing.T) {
	for _, c := range []struct {
		mark, at, read string
		want           sitting.Mark
	}{
		{"-1.9in", "30in", "3mm", sitting.Mark{At: -1.9 * unit.Inch, Line: 30 * unit.Inch, Read: 3 * unit.Millimetre}},
		{"-1 31/32 in", "762mm", "1mm", sitting.Mark{At: -(1 + 31.0/32) * unit.Inch, Line: 30 * unit.Inch, Read: 1 * unit.Millimetre}},
		{"4,8 cm", "76.2 cm", "0.1in", sitting.Mark{At: 48 * unit.Millimetre, Line: 30 * unit.Inch, Read: 0.1 * unit.Inch}},
		{"−50in", "100in", "50in", sitting.Mark{At: -50 * unit.Inch, Line: 100 * unit.Inch, Read: 50 * unit.Inch}},
		{"0in", "30in", "3mm", sitting.Mark{Line: 30 * unit.Inch, Read: 3 * unit.Millimetre}},
	} {
		k := marked()
		k.Mark, k.At, k.Read = c.mark, c.at, c.read
		got, err := k.Stroke(2, 0.4)
		require.NoError(t, err, c.mark)
		assert.Equal(t, 2, got.Cue)
		assert.Equal(t, 0.4, got.Shot.Cue.PivotSpin)
		assert.Zero(t, got.Shot.Hands.Back)
		seen := got.Seen.(sitting.Mark)
		assert.InDelta(t, float64(c.want.At), float64(seen.At), 1e-12, c.mark)
		assert.InDelta(t, float64(c.want.Line), float64(seen.Line), 1e-12, c.at)
		assert.InDelta(t, float64(c.want.Read), float64(seen.Read), 1e-12, c.read)
		assert.InDelta(t, 1.27, float64(seen.Across), 1e-12, "a nine-foot table is 50 in wide")
	}
	for word, want := range map[string]sitting.Gate{"left": sitting.Left, "clean": sitting.Clean, "right": sitting.Right} {
		got, err := store.Stroke{Link: "v=1&gate=20in", See: word}.Stroke(0, 0.5)
		require.NoError(t, err)
		assert.Equal(t, want, got.Seen)
		assert.Equal(t, 20*unit.Inch, got.Shot.Gate.Dist)
	}
}

func TestStrokesThatCantBe(t *testing.T) {
	for _, c := range []struct {
		spoil func(*store.Stroke)
		want  []string
	}{
		{func(k *store.Stroke) { k.Mark = "" }, []string{"a stroke needs what the ball hit (see: left, clean, right) or a mark"}},
		{func(k *store.Stroke) { k.See = "left" }, []string{"“left”", "“-1.9in”", "can't have both"}},
		{func(k *store.Stroke) { k.See, k.Mark = "left", "" }, []string{"“left”", "“30in”", "“3mm”", "leave them out"}},
		{func(k *store.Stroke) { *k = store.Stroke{Link: "v=1", See: "Left"} }, []string{"“Left”, allowed: left, clean, right"}},
		{func(k *store.Stroke) { k.Mark = "-1.9" }, []string{"mark: “-1.9” is not a length"}},
		{func(k *store.Stroke) { k.Mark = "50.1in" }, []string{"mark “50.1in”, allowed: up to 50.0 in to either side, the width of the table"}},
		{func(k *store.Stroke) { k.Mark, k.Link = "-128cm", k.Link+"&units=cm" }, []string{"mark “-128cm”, allowed: up to 127.0 cm to either side"}},
		{func(k *store.Stroke) { k.Mark, k.Link = "40in", "v=1&table=7ft" }, []string{"mark “40in”, allowed: up to 39.0 in"}},
		{func(k *store.Stroke) { k.At = "" }, []string{"distance of the line (at): “” is not a length"}},
		{func(k *store.Stroke) { k.At = "0in" }, []string{"distance of the line (at) “0in”, allowed: more than 0 and up to 100.0 in, the length of the table"}},
		{func(k *store.Stroke) { k.At = "-3in" }, []string{"(at) “-3in”"}},
		{func(k *store.Stroke) { k.At = "9m" }, []string{"(at) “9m”"}},
		{func(k *store.Stroke) { k.Read = "0mm" }, []string{"reading error (read) “0mm”, allowed: more than 0 and up to 50.0 in"}},
		{func(k *store.Stroke) { k.Read = "1e300m" }, []string{"(read) “1e300m”"}},
		{func(k *store.Stroke) { k.Mark, k.At, k.Read = "9m", "x", "-1mm" }, []string{"mark “9m”", "(at): “x” is not a length", "(read) “-1mm”"}},
		{func(k *store.Stroke) { k.Link = "v=1&bridge=9" }, []string{"bridge: “9” can't be used"}},
		{func(k *store.Stroke) { k.Cue = strings.Repeat("é", 61) }, []string{"cue: ", "allowed: up to 60 printable characters"}},
	} {
		good, bad := marked(), marked()
		c.spoil(&bad)
		_, err := store.Decode(store.Records{Strokes: []store.Stroke{good, bad}}.Encode())
		require.Error(t, err, c.want[0])
		assert.Contains(t, err.Error(), "stroke 2: ")
		for _, w := range c.want {
			assert.Contains(t, err.Error(), w)
		}
		got, lost, err := store.Restore(store.Records{Strokes: []store.Stroke{bad, good}}.Encode())
		require.Error(t, err)
		assert.Equal(t, []store.Stroke{good}, got.Strokes, "one bad stroke hides no other")
		assert.Equal(t, store.Records{Strokes: []store.Stroke{bad}}.Encode(), lost)
	}
	bad := marked()
	bad.Mark, bad.Read = "9m", "0mm"
	_, err := bad.Stroke(0, 0.5)
	assert.ErrorContains(t, err, "mark “9m”")
	assert.ErrorContains(t, err, "(read) “0mm”")
}

// What people type around a stroke is kept as it looks.
func TestStrokesAreCleaned(t *testing.T) {
	k := marked()
	k.Cue, k.Mark, k.At, k.When = " House\u00a04\u00ad\t", "\u22121\u202f7/8 in\n", " 30 in ", "Tuesday\r\nlate"
	back, err := store.Decode(store.Records{Strokes: []store.Stroke{k}}.Encode())
	require.NoError(t, err)
	want := marked()
	want.Cue, want.Mark, want.At, want.When = "House 4", "−1 7/8 in", "30 in", "Tuesday\nlate"
	assert.Equal(t, []store.Stroke{want}, back.Strokes)
}

func TestCueKey(t *testing.T) {
	assert.Equal(t, store.CueKey("House 4"), store.CueKey(" house 4"))
	assert.NotEqual(t, store.CueKey("House 4"), store.CueKey("House 40"))
	assert.Empty(t, store.CueKey(" "))
}
