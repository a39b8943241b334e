package unit_test

import (
	"math"
	"runtime"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/unit"
)

func TestParse(t *testing.T) {
	for _, c := range []struct {
		text string
		kind unit.Kind
		bare string
		want float64
	}{
		{"9 1/2 in", unit.LengthKind, "", 9.5 * 0.0254},
		{"9.5in", unit.LengthKind, "", 9.5 * 0.0254},
		{`9"`, unit.LengthKind, "", 9 * 0.0254},
		{"9″", unit.LengthKind, "", 9 * 0.0254},
		{"9 inches", unit.LengthKind, "", 9 * 0.0254},
		{"1 inch", unit.LengthKind, "", 0.0254},
		{"3/8 in", unit.LengthKind, "", 0.375 * 0.0254},
		{"-3/8 in", unit.LengthKind, "", -0.375 * 0.0254},
		{"-2 1/4 in", unit.LengthKind, "", -2.25 * 0.0254},
		{"-0 1/4 in", unit.LengthKind, "", -0.25 * 0.0254},
		{"0 7/2 in", unit.LengthKind, "", 3.5 * 0.0254},
		{"9 0/2 in", unit.LengthKind, "", 9 * 0.0254},
		{"24 cm", unit.LengthKind, "", 24 * 0.01},
		{"24cm", unit.LengthKind, "", 24 * 0.01},
		{"  24   cm  ", unit.LengthKind, "", 24 * 0.01},
		{"1,5 m", unit.LengthKind, "", 1.5},
		{"61.5mm", unit.LengthKind, "", 61.5 * 0.001},
		{"5 ft", unit.LengthKind, "", 5 * 0.3048},
		{"1.5e-3m", unit.LengthKind, "", 1.5e-3},
		{"1.5E2m", unit.LengthKind, "", 150},
		{"12", unit.LengthKind, "in", 12 * 0.0254},
		{"12 1/2", unit.LengthKind, "in", 12.5 * 0.0254},
		{"12 cm", unit.LengthKind, "in", 12 * 0.01}, // the unit written takes precedence over bare
		{"7 mph", unit.SpeedKind, "", 7 * 0.44704},
		{"3 m/s", unit.SpeedKind, "", 3},
		{"36 km/h", unit.SpeedKind, "", 10},
		{"10 ft/s", unit.SpeedKind, "", 3.048},
		{"−3°", unit.AngleKind, "", -3 * math.Pi / 180},
		{"-3 deg", unit.AngleKind, "", -3 * math.Pi / 180},
		{"+3deg", unit.AngleKind, "", 3 * math.Pi / 180},
		{"0.1rad", unit.AngleKind, "", 0.1},
		{"19 oz", unit.MassKind, "", 19 * 0.028349523125},
		{"170g", unit.MassKind, "", 0.17},
		{"0.17 kg", unit.MassKind, "", 0.17},
		{"250 ms", unit.SpanKind, "", 0.25},
		{"10 rad/s²", unit.SpinRateKind, "", 10},
		{"10rad/s2", unit.SpinRateKind, "", 10},
		{"-0.4", unit.Ratio, "", -0.4},
		{".5", unit.Ratio, "", 0.5},
		{"5.", unit.Ratio, "", 5},
		{"1/3", unit.Ratio, "", 1.0 / 3},
	} {
		got, err := unit.Parse(c.text, c.kind, c.bare)
		if assert.NoError(t, err, c.text) {
			assert.InDelta(t, c.want, got, 1e-15*math.Abs(c.want), c.text)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		text string
		kind unit.Kind
		bare string
	}{
		{"", unit.LengthKind, "in"},
		{"   ", unit.Ratio, ""},
		{"NaN", unit.Ratio, ""},
		{"NaN in", unit.LengthKind, ""},
		{"Inf", unit.Ratio, ""},
		{"-Inf m", unit.LengthKind, ""},
		{"1e999", unit.Ratio, ""},
		{"1e999 m", unit.LengthKind, ""},
		{"9", unit.LengthKind, ""}, // no unit
		{"9.5", unit.SpeedKind, ""},
		{"in", unit.LengthKind, ""}, // no number
		{"9 kg", unit.LengthKind, ""},
		{"9 in", unit.AngleKind, ""},
		{"9 in", unit.Ratio, ""},
		{"9 IN", unit.LengthKind, ""},
		{"9 furlongs", unit.LengthKind, ""},
		{"9½ in", unit.LengthKind, ""}, // refused, not guessed
		{"9 in in", unit.LengthKind, ""},
		{"9", unit.LengthKind, "furlongs"},
		{"1/0 in", unit.LengthKind, ""},
		{"1/-2 in", unit.LengthKind, ""},
		{"9 1/0 in", unit.LengthKind, ""},
		{"9 -1/2 in", unit.LengthKind, ""},
		{"9.5 1/2 in", unit.LengthKind, ""},
		{"9 1/2 1/2 in", unit.LengthKind, ""},
		{"1/2/3 in", unit.LengthKind, ""},
		{"1.5/2 in", unit.LengthKind, ""},
		{"9 9 in", unit.LengthKind, ""},
		{"/ in", unit.LengthKind, ""},
		{"99999999999/3 in", unit.LengthKind, ""},
		{"1,500.5 mm", unit.LengthKind, ""},
		{"--3 deg", unit.AngleKind, ""},
		{"- 3 deg", unit.AngleKind, ""},
		{"0x10 in", unit.LengthKind, ""},
		{"1_000 in", unit.LengthKind, ""},
		{"9in<script>", unit.LengthKind, ""},
		{"\x00", unit.Ratio, ""},
		{"\xff9 in", unit.LengthKind, ""},
		{"e5", unit.Ratio, ""},
	} {
		got, err := unit.Parse(c.text, c.kind, c.bare)
		var refused *unit.ParseError
		assert.ErrorAs(t, err, &refused, "%q", c.text)
		assert.Zero(t, got, "%q", c.text)
	}
}

func TestParseErrorSaysWhatWasReadAndWanted(t *testing.T) {
	_, err := unit.Parse("9 furlongs", unit.LengthKind, "")
	assert.EqualError(t, err, `“9 furlongs” is not a length: type 9.5 in, 9 1/2 in or 24 cm`)
	_, err = unit.Parse("much", unit.Ratio, "")
	assert.EqualError(t, err, "“much” is not a number: type 0.4 or 40 %")

	_, err = unit.Parse(strings.Repeat("é\xff", 1<<20), unit.Ratio, "")
	var refused *unit.ParseError
	require.ErrorAs(t, err, &refused)
	assert.True(t, utf8.ValidString(refused.Read))
	assert.LessOrEqual(t, utf8.RuneCountInString(refused.Read), 41, "the quotation stays short")
}

// The cost of a refusal does not depend on the length of the text.
func TestJunkIsRefusedUnread(t *testing.T) {
	for _, junk := range []string{strings.Repeat("1", 10<<20), strings.Repeat("9 1/2", 2<<20), strings.Repeat("é\xff", 4<<20)} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := unit.Parse(junk, unit.LengthKind, "in")
		runtime.ReadMemStats(&after)
		require.Error(t, err)
		assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(64<<10), "bytes")
	}
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{"9 1/2 in", "−3°", "1,5 m", `9"`, "1e-3m", "-0 1/4 in", "1/0 in", "NaN", "\xff", "9e", "0.4"} {
		f.Add(seed, 1, "")
		f.Add(seed, 2, "deg")
	}
	f.Fuzz(func(t *testing.T, text string, kind int, bare string) {
		k := unit.Kind(uint(kind) % 7)
		v, err := unit.Parse(text, k, bare)
		if err != nil {
			require.Zero(t, v)
			return
		}
		require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%q", text)
		for _, u := range k.Units() {
			back, err := unit.Parse(unit.Exact(v, k, u.Name), k, "")
			require.NoError(t, err)
			require.Equal(t, v, back)
		}
	})
}
