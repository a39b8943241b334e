package player_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/margin"
	"pivotbench/core/motion"
	"pivotbench/core/player"
	"pivotbench/core/stance"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// Independent errors add in quadrature: all of a player's errors together spread the ball
// as his strokes did, unless the others alone spread it more.
func TestAllErrorsTogetherAreTheSpread(t *testing.T) {
	s := table()
	s.Hands = stance.Hands{Bridge: 10 * unit.Inch, Grip: 30 * unit.Inch, Back: 1}
	s.Dist, s.Speed, s.Elevation = 48*unit.Inch, 7*unit.MilePerHour, 3*unit.Degree
	p := player.New("Ann")
	on := margin.Scatter{Elev: 0.7 * unit.Degree, Aim: 9}
	usual, err := p.Errors(&s, on)
	require.NoError(t, err)
	assert.Equal(t, p.Scatter.Aim.Best(), usual.Aim, "nothing is known of the whole yet")
	assert.Equal(t, on.Elev, usual.Elev)

	p.Spread = player.Measured[unit.Angle]{Estimate: stat.NormalEstimate(1.2*unit.Degree, 0.1*unit.Degree)}
	his, err := p.Errors(&s, on)
	require.NoError(t, err)
	whole, err := margin.Spread(&s, his)
	require.NoError(t, err)
	assert.InEpsilon(t, 1.2, float64(whole/s.Dist)/float64(unit.Degree), 1e-6)

	p.Spread = player.Measured[unit.Angle]{Estimate: stat.NormalEstimate(0.01*unit.Degree, 0.001*unit.Degree)}
	his, err = p.Errors(&s, on)
	require.NoError(t, err)
	assert.Zero(t, his.Aim)

	s.Speed = 0.2 * unit.MilePerHour
	_, err = p.Errors(&s, on)
	assert.Equal(t, motion.ErrStops, err)
}
