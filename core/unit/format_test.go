package unit_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/unit"
)

var kinds = []unit.Kind{
	unit.Ratio, unit.LengthKind, unit.AngleKind, unit.SpeedKind, unit.MassKind, unit.SpanKind, unit.SpinRateKind,
}

// Parse reads back what Exact writes to the same float64, for any bits and for everyday
// sizes, where the rounding of a unit shows.
func TestExactReadsBackToTheSameFloat(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	everyday := func() float64 { return math.Pow(10, 8*rng.Float64()-5) * (2*rng.Float64() - 1) }
	anyBits := func() float64 {
		for {
			if v := math.Float64frombits(rng.Uint64()); !math.IsNaN(v) && !math.IsInf(v, 0) {
				return v
			}
		}
	}
	links := []string{"", "in", "mm", "deg", "mph", "g", "s", "rad/s2"} // what links write
	for _, k := range kinds {
		for _, u := range k.Units() {
			inSI, count := 0, 2_000
			if slices.Contains(links, u.Name) {
				count = 20_000
			}
			for i := range count {
				v := everyday()
				if i%4 == 0 {
					v = anyBits()
				}
				text := unit.Exact(v, k, u.Name)
				back, err := unit.Parse(text, k, "")
				if err != nil || back != v {
					t.Fatalf("%v %s: wrote %q, read %v, %v", v, u.Name, text, back, err)
				}
				if !strings.HasSuffix(text, u.Name) {
					inSI++
				}
			}
			// Most values are written in their own unit; SI is the exception.
			assert.Less(t, inSI, count*35/100, "%v %s", k, u.Name)
		}
	}
}

func TestExactKeepsWhatPeopleWrote(t *testing.T) {
	for _, text := range []string{"9.5in", "7mph", "3deg", "540g", "10.6mm", "0.4", "-0.35", "2.75in", "36in", "10rad/s2", "250ms"} {
		for _, k := range kinds {
			v, err := unit.Parse(text, k, "")
			if err != nil {
				continue
			}
			name := strings.TrimLeft(text, "-0123456789.")
			assert.Equal(t, text, unit.Exact(v, k, name))
		}
	}
	assert.Equal(t, "0.1m", unit.Exact(0.1, unit.LengthKind, "no such unit"))
	assert.Equal(t, "0m", unit.Exact(0, unit.LengthKind, "m"))
	assert.Equal(t, "1e-07m", unit.Exact(1e-7, unit.LengthKind, "m"))
	assert.Equal(t, "1e+09m", unit.Exact(1e9, unit.LengthKind, "m"))
}

// A value that is round in another unit is written in that one, so a link set in
// centimetres is as short as one set in inches.
func TestExactIsShort(t *testing.T) {
	for _, c := range []struct{ text, name, want string }{
		{"30.5cm", "in", "305mm"},
		{"18.6cm", "in", "18.6cm"},
		{"60.15mm", "in", "60.15mm"},
		{"3.05m/s", "mph", "3.05m/s"},
		{"19.5oz", "g", "19.5oz"},
		{"36in", "in", "36in"}, // not 3 ft
		{"9.5\"", "mm", "9.5in"},
		{"0.1rad", "deg", "0.1rad"},
	} {
		for _, k := range []unit.Kind{unit.LengthKind, unit.AngleKind, unit.SpeedKind, unit.MassKind} {
			if v, err := unit.Parse(c.text, k, ""); err == nil {
				assert.Equal(t, c.want, unit.Exact(v, k, c.name))
			}
		}
	}
}

func TestRound(t *testing.T) {
	for _, c := range []struct {
		v        float64
		kind     unit.Kind
		name     string
		decimals int
		want     string
	}{
		{9.5 * 0.0254, unit.LengthKind, "in", 1, "9.5"},
		{9.5 * 0.0254, unit.LengthKind, "cm", 1, "24.1"},
		{-3 * math.Pi / 180, unit.AngleKind, "deg", 1, "−3.0"},
		{-3 * math.Pi / 180, unit.AngleKind, "°", 2, "−3.00"},
		{-0.0001, unit.LengthKind, "m", 1, "0.0"},
		{math.Copysign(0, -1), unit.LengthKind, "m", 2, "0.00"},
		{0.17, unit.MassKind, "g", 0, "170"},
		{0.125, unit.Ratio, "", 2, "0.13"},
		{-0.125, unit.Ratio, "", 2, "−0.13"},
		{1.25, unit.LengthKind, "no such unit", 2, "1.25"}, // SI then
		{math.Inf(1), unit.LengthKind, "in", 1, "∞"},
		{math.Inf(-1), unit.LengthKind, "in", 1, "−∞"},
	} {
		assert.Equal(t, c.want, unit.Round(c.v, c.kind, c.name, c.decimals))
	}
}

// The International Yard and Pound agreement (1959) and the SI brochure define these; 1
// mph, 1 ft and 1 oz are exact.
func TestUnitsAreTheDefinedOnes(t *testing.T) {
	assert.Equal(t, 0.0254, float64(unit.Inch))
	assert.InDelta(t, 12*float64(unit.Inch), float64(unit.Foot), 1e-16)
	assert.InDelta(t, 5280*0.3048/3600, float64(unit.MilePerHour), 1e-16)
	assert.InDelta(t, 0.45359237/16, float64(unit.Ounce), 1e-17)
	assert.InDelta(t, 1000.0/3600, float64(unit.KilometrePerHour), 1e-16)
	assert.InDelta(t, math.Pi, 180*float64(unit.Degree), 1e-15)
	assert.Equal(t, 9.80665, unit.Gravity)
	for _, k := range kinds {
		assert.Equal(t, 1.0, k.Units()[0].SI, "the first unit is the SI one")
		for _, u := range k.Units() {
			found, ok := k.Find(u.Name)
			require.True(t, ok)
			assert.Equal(t, u, found)
		}
		_, ok := k.Find("furlong")
		assert.False(t, ok)
	}
}

func TestAngle(t *testing.T) {
	assert.InDelta(t, 0.5, (30 * unit.Degree).Sin(), 1e-15)
	assert.InDelta(t, 0.5, (60 * unit.Degree).Cos(), 1e-15)
	assert.InDelta(t, 1, (45 * unit.Degree).Tan(), 1e-15)
}

func ExampleParse() {
	v, _ := unit.Parse("9 1/2 in", unit.LengthKind, "")
	fmt.Printf("%.4f m\n", v)
	_, err := unit.Parse("9.5", unit.LengthKind, "")
	fmt.Println(err)
	// Output:
	// 0.2413 m
	// “9.5” is not a length: type 9.5 in, 9 1/2 in or 24 cm
}

func ExampleExact() {
	fmt.Println(unit.Exact(float64(9.5*unit.Inch), unit.LengthKind, "in"))
	fmt.Println(unit.Exact(float64(7*unit.MilePerHour), unit.SpeedKind, "mph"))
	// Output:
	// 9.5in
	// 7mph
}

func ExampleRound() {
	v := float64(-2.345 * unit.Degree)
	fmt.Println(unit.Round(v, unit.AngleKind, "deg", 1))
	// Output: −2.3
}

// A number is written in full from a millionth to a thousand million, as people do, and
// with an exponent beyond that.
func TestExactWritesNumbersInFull(t *testing.T) {
	for power := -12; power <= 12; power++ {
		for _, sign := range []float64{1, -1} {
			text := unit.Exact(sign*math.Pow(10, float64(power)), unit.Ratio, "")
			assert.Equal(t, power < -6 || power >= 9, strings.Contains(text, "e"), text)
		}
	}
	assert.Equal(t, "0", unit.Exact(0, unit.Ratio, ""))
}
