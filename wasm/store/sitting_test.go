package store_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/wasm/store"
)

// A pause of three hours ends a sitting, however the moments are written and in whatever
// order they come. An evening that runs past midnight is one sitting.
func TestSittingsEndWithAPause(t *testing.T) {
	for name, c := range map[string]struct {
		moments []string
		want    []int
	}{
		"none":             {nil, []int{}},
		"without a time":   {[]string{"", "", "yesterday"}, []int{0, 0, 0}},
		"one evening":      {[]string{"2026-11-24T23:10:00+01:00", "2026-11-25T00:40:00+01:00", "2026-11-25T03:39:59+01:00"}, []int{0, 0, 0}},
		"two":              {[]string{"2026-11-24T20:00:00Z", "2026-11-24T23:00:00Z"}, []int{0, 1}},
		"out of order":     {[]string{"2026-11-26T20:00:00Z", "2026-11-24T20:00:00Z", "2026-11-26T18:00:00Z", "2026-11-25T20:00:00Z"}, []int{2, 0, 2, 1}},
		"of two zones":     {[]string{"2026-11-24T20:00:00.000+01:00", "2026-11-25T04:30:00.000+09:00", "2026-11-24T20:30:00Z"}, []int{0, 0, 0}},
		"some with a time": {[]string{"2026-11-24T20:00:00Z", "", "2026-11-24T20:05:00Z"}, []int{1, 0, 1}},
		"a day alone":      {[]string{"2026-11-24", "2026-11-24"}, []int{0, 0}},
	} {
		assert.Equal(t, c.want, store.Sittings(c.moments), name)
	}
}

func TestChecksThatCantBe(t *testing.T) {
	good := store.Check{Of: "bridge", Error: "1/8 in", When: "2026-11-24"}
	v, err := good.Value()
	require.NoError(t, err)
	assert.InDelta(t, 0.003175, v, 1e-12)
	for _, c := range []struct {
		check store.Check
		want  string
	}{
		{store.Check{Of: "chalk", Error: "1"}, "check 2: what was checked (of): “chalk”, allowed: elevation, bridge, offset, speed, slide"},
		{store.Check{Of: "elevation", Error: "0.3"}, "check 2: error: "},
		{store.Check{Of: "speed", Error: "-4 %"}, "check 2: error “-4 %”, allowed: 0 or more"},
	} {
		_, err := store.Decode(store.Records{Checks: []store.Check{good, c.check}}.Encode())
		assert.ErrorContains(t, err, c.want)
	}
	assert.NotContains(t, store.Records{}.Encode(), "checks", "a file without checks is as it was")
}
