package margin_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/margin"
	"pivotbench/core/motion"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
)

// The standard deviation of the arrival agrees with simulated strokes.
func TestSpreadAgainstStrokes(t *testing.T) {
	s, sc := medium(), scenario.Default().Scatter
	s.Dist = 3 * unit.Foot
	got, err := margin.Spread(&s, sc)
	require.NoError(t, err)
	rng := rand.New(rand.NewPCG(5, 6))
	const n = 20000
	var sum, squares, count float64
	for range n {
		at := s
		at.Contact.Side += float64(sc.Tip/s.Ball.Radius) * rng.NormFloat64()
		at.Contact.Height += float64(sc.Tip/s.Ball.Radius) * rng.NormFloat64()
		at.Speed *= unit.Speed(1 + sc.Speed*rng.NormFloat64())
		at.Hands.Bridge += sc.Bridge * unit.Length(rng.NormFloat64())
		at.Elevation = max(0, at.Elevation+sc.Elev*unit.Angle(rng.NormFloat64()))
		at.AimOff += sc.Aim * unit.Angle(rng.NormFloat64())
		var path motion.Path
		if at.Send(&path) != nil {
			continue // a miscue does not arrive
		}
		count++
		when, err := path.AtCircle(at.Dist)
		require.NoError(t, err)
		x, _ := path.At(when)
		sum += x.Pos.X
		squares += x.Pos.X * x.Pos.X
	}
	mean := sum / count
	assert.InEpsilon(t, math.Sqrt(squares/count-mean*mean), float64(got), 0.06)

	s.Speed = 0.3 * unit.MilePerHour
	_, err = margin.Spread(&s, sc)
	assert.ErrorIs(t, err, motion.ErrStops)
}
