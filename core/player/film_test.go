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

// Strokes on film tell a player as marks do, with the hands' habit and the speed that he
// really plays: his card is narrower than from marks of the same strokes, and still right.
func TestStrokesOnFilm(t *testing.T) {
	t.Parallel()
	p := player.New("Nia")
	who := sitting.Tester{Pivot: 11 * unit.Inch, Scatter: 0.1 * unit.Degree, Front: math.Log(1.6)}
	who.Errors[sitting.SpeedError] = 1 // her slow is a fifth faster than most players'
	r := rand.New(rand.NewPCG(11, 11))
	marked, filmed := start(t, p, nil), start(t, p, nil)
	const line = 48 * unit.Inch
	film := sitting.Film{Lines: []unit.Length{line}, Across: 50 * unit.Inch, Cov: [][]float64{{1e-6, 0, 0}, {0, 4e-6, 0}, {0, 0, 1e-3}}}
	for i := range 8 {
		speed := []unit.Speed{4, 12}[i/4] * unit.MilePerHour
		s := marked.Shot(line, speed, side-2*side*float64(i%2), []float64{1, 0.5}[i/2%2])
		k, err := who.OnFilm(s, p.SetUp(sitting.Habit), film, r)
		require.NoError(t, err)
		filmed, err = filmed.Add(k)
		require.NoError(t, err)

		m := mark(line)
		m.At = k.Seen.(sitting.Film).At[0]
		marked, err = marked.Add(sitting.Stroke{Shot: s, Seen: m})
		require.NoError(t, err)
	}
	require.Equal(t, 8, filmed.N())
	assert.True(t, filmed.Gain().Holds(1.6), "%v", filmed.Gain())
	assert.Less(t, filmed.Gain().To-filmed.Gain().From, 0.5)
	byFilm, byMark := filmed.Card(sheet()), marked.Card(sheet())
	for i, row := range byFilm {
		for j, c := range row {
			require.NoError(t, c.Err)
			assert.True(t, c.Share.Holds(share(t, who, p, filmed, c.Dist, c.Speed)), "%v %v", c.Dist, c.Speed)
			assert.Less(t, c.Share.To-c.Share.From, byMark[i][j].Share.To-byMark[i][j].Share.From)
		}
	}
}
