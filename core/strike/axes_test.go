package strike_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/gear"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// The axes of a hit in the frame of the core: x to the shooter's right, y down the table
// along the aim line, z up. A raised cue points downward.
func TestAxes(t *testing.T) {
	line := strike.Line{Heading: 10 * unit.Degree, Elevation: 30 * unit.Degree}
	sin, cos := math.Sincos(10 * math.Pi / 180)
	root := math.Sqrt(3) / 2
	along := vec.V{X: sin * root, Y: cos * root, Z: -0.5}
	assertVector := func(want, got vec.V) {
		t.Helper()
		assert.InDeltaSlice(t, []float64{want.X, want.Y, want.Z}, []float64{got.X, got.Y, got.Z}, 1e-12)
	}
	assertVector(along, line.Direction())

	hit, err := strike.Prepare(gear.Ball{Radius: 1.125 * unit.Inch, Mass: 170 * unit.Gram}, cue(12*unit.Inch, wide), strike.Contact{Side: 0.3, Height: 0.4})
	require.NoError(t, err)
	assert.InDelta(t, 0.5, hit.Offset(), 1e-12, "a right triangle of 3, 4 and 5")
	dir, out, across := hit.Axes(line)
	assertVector(along, dir)
	side, up := vec.V{X: cos, Y: -sin}, vec.V{X: sin * 0.5, Y: cos * 0.5, Z: root}
	assertVector(side.Mul(0.6).Add(up.Mul(0.8)), out)
	assertVector(dir.Cross(out), across)
	assert.InDelta(t, 0, dir.Dot(out), 1e-12)
}

// With a small dome and low friction limit apart: the edge of a narrow tip reaches the
// ball before it slips, and a wide tip slips before its edge reaches the ball.
func TestLastOffset(t *testing.T) {
	narrow, broad := wide, wide
	narrow.Dome, narrow.Width, narrow.Friction = 10*unit.Millimetre, 8*unit.Millimetre, 1
	broad.Dome, broad.Width, broad.Friction = 10*unit.Millimetre, 16*unit.Millimetre, 0.3
	assert.InDelta(t, 0.4, strike.LastOffset(20, narrow), 1e-12)
	assert.Equal(t, strike.MostOffset(20, broad), strike.LastOffset(20, broad))
	assert.Less(t, strike.LastOffset(20, broad), 0.8)
}
