package vec_test

import (
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
