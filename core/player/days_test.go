package player_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/player"
	"pivotbench/core/sitting"
	"pivotbench/core/unit"
)

// A player's strokes of two days, on which his cue lies at another elevation and his bridge
// is another: what differs between the days is not taken for his spread, as it is where all
// strokes count as one sitting.
func TestTwoDaysHaveSetUpsOfTheirOwn(t *testing.T) {
	t.Parallel()
	p := player.New("Oda")
	who := sitting.Tester{Pivot: 12 * unit.Inch, Scatter: 0.15 * unit.Degree, Front: math.Log(1.4)}
	days := [2][len(who.Errors)]float64{{1, 1, 0, 0.5}, {-1, -1, 0, -0.5}} // in standard deviations
	r := rand.New(rand.NewPCG(9, 9))
	apart, together := start(t, p, nil), start(t, p, nil)
	const line = 48 * unit.Inch
	for day, errors := range days {
		who.Errors = errors
		for i := range 8 {
			s := apart.Shot(line, []unit.Speed{4, 12}[i/4]*unit.MilePerHour, side-2*side*float64(i%2), []float64{1, 0.5}[i/2%2])
			k, err := who.AtLine(s, p.SetUp(sitting.Habit), mark(line), r)
			require.NoError(t, err)
			together, err = together.Add(k)
			require.NoError(t, err)
			k.Sitting = day
			apart, err = apart.Add(k)
			require.NoError(t, err)
		}
	}
	who.Errors = [len(who.Errors)]float64{} // on the average of the days
	assert.True(t, apart.Spread().Holds(float64(who.Scatter)), "%v", apart.Spread())
	assert.False(t, together.Spread().Holds(float64(who.Scatter)), "%v", together.Spread())
	assert.True(t, apart.Gain().Holds(1.4), "%v", apart.Gain())
	for _, row := range apart.Card(sheet()) {
		for _, c := range row {
			require.NoError(t, c.Err)
			assert.True(t, c.Share.Holds(share(t, who, p, apart, c.Dist, c.Speed)), "%v %v", c.Dist, c.Speed)
		}
	}
}
