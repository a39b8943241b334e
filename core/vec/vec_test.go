package vec_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/vec"
)

func TestVectors(t *testing.T) {
	a, b := vec.V{X: 1, Y: 2, Z: 3}, vec.V{X: -4, Y: 5, Z: 7}
	assert.Equal(t, vec.V{X: -3, Y: 7, Z: 10}, a.Add(b))
	assert.Equal(t, vec.V{X: 5, Y: -3, Z: -4}, a.Sub(b))
	assert.Equal(t, vec.V{X: 2, Y: 4, Z: 6}, a.Mul(2))
	assert.Equal(t, 27.0, a.Dot(b))
	assert.Equal(t, vec.V{X: -1, Y: -19, Z: 13}, a.Cross(b))
	assert.Equal(t, vec.V{Z: 1}, vec.V{X: 1}.Cross(vec.V{Y: 1}), "x to the right, y down the table, z up: right-handed")
	assert.Equal(t, 5.0, vec.V{X: 3, Z: 4}.Norm())
	assert.Equal(t, vec.V{X: 1, Y: 2}, a.Plan())
}

// A turn to the right is clockwise as seen from above.
func TestTurn(t *testing.T) {
	near := func(want, got vec.V) { assert.InDelta(t, 0, want.Sub(got).Norm(), 1e-15) }
	ahead := vec.V{Y: 1, Z: 5}
	near(vec.V{X: 1, Z: 5}, ahead.Turn(math.Pi/2))
	near(vec.V{X: -1, Z: 5}, ahead.Turn(-math.Pi/2))
	near(vec.V{X: math.Sin(0.3), Y: math.Cos(0.3), Z: 5}, ahead.Turn(0.3))
	a, b := vec.V{X: 1, Y: 2, Z: 3}, vec.V{X: -4, Y: 5, Z: 7}
	near(a, a.Turn(1.1).Turn(-1.1))
	assert.InDelta(t, a.Dot(b), a.Turn(2).Dot(b.Turn(2)), 1e-14, "lengths and angles stay")
	near(a.Cross(b).Turn(2).Mul(0.01), a.Turn(2).Cross(b.Turn(2)).Mul(0.01))
}
