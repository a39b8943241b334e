package unit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/unit"
)

func TestAbs(t *testing.T) {
	assert.Equal(t, 2*unit.Inch, unit.Abs(-2*unit.Inch))
	assert.Equal(t, 3*unit.Degree, unit.Abs(3*unit.Degree))
	assert.False(t, math.Signbit(float64(unit.Abs(unit.Speed(math.Copysign(0, -1))))))
	assert.True(t, math.IsNaN(float64(unit.Abs(unit.Mass(math.NaN())))))
}

// An angle and its normalized angle have the same sine and cosine.
func TestNormalized(t *testing.T) {
	for degrees := -1000.0; degrees <= 1000; degrees += 7 {
		a := unit.Angle(degrees) * unit.Degree
		n := a.Normalized()
		assert.True(t, n > -math.Pi && n <= math.Pi, "%v", degrees)
		assert.InDelta(t, a.Sin(), n.Sin(), 1e-13)
		assert.InDelta(t, a.Cos(), n.Cos(), 1e-13)
	}
	assert.Equal(t, unit.Angle(math.Pi), unit.Angle(-math.Pi).Normalized(), "half a turn either way is the same")
	assert.Equal(t, unit.Angle(math.Pi), unit.Angle(math.Pi).Normalized())
	assert.Equal(t, 30*unit.Degree, (30 * unit.Degree).Normalized(), "to the bit")
	assert.True(t, math.IsNaN(float64(unit.Angle(math.NaN()).Normalized())))
	assert.True(t, math.IsNaN(float64(unit.Angle(math.Inf(1)).Normalized())))
}
