package film_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/film"
	"pivotbench/core/film/filmtest"
	"pivotbench/core/vec"
)

// The balls of a layout are found in a picture without marks, within half a radius of where
// the renderer has them, or not at all.
func TestFind(t *testing.T) {
	t.Parallel()
	found := 0
	for seed := range uint64(10) {
		k := quick(seed)
		f := filmtest.New(&k.Scene)
		first, _ := f.Next()
		got, err := film.Find(first, radius, k.Balls)
		if err != nil {
			require.ErrorIs(t, err, film.ErrNotFound)
			continue
		}
		found++
		require.Len(t, got, len(k.Balls))
		for i := range got {
			at := vec.V{}
			if i > 0 {
				at = k.Scene.Balls[i-1].At
			}
			x, y, deep := f.Pixel(at)
			size := k.Scene.Focal * k.Scene.Radius / deep
			assert.Less(t, math.Hypot(got[i].Mark.X-x, got[i].Mark.Y-y), size/2, "seed %d, %s", seed, got[i].Role)
			assert.InEpsilon(t, size, got[i].Radius, 0.2, "seed %d, %s", seed, got[i].Role)
			assert.Equal(t, k.Balls[i].At, got[i].At)
		}
		_, err = film.Calibrate(first, radius, got, nil)
		assert.NoError(t, err, "seed %d", seed)
	}
	assert.GreaterOrEqual(t, found, 9)
}

// Balls that a picture does not show are not proposed.
func TestFindRefuses(t *testing.T) {
	t.Parallel()
	k := quick(0)
	f := filmtest.New(&k.Scene)
	first, _ := f.Next()
	_, err := film.Find(first, radius, k.Balls)
	require.NoError(t, err)

	longer := append([]film.Ball(nil), k.Balls...)
	longer[1].At.Y += 0.4
	_, err = film.Find(first, radius, longer)
	assert.ErrorIs(t, err, film.ErrNotFound, "the target is nearer than the layout has it")

	// A second ball like the cue ball lies close to it. Four balls tell them apart, and
	// three do not.
	twin := quick(0)
	twin.Scene.Balls = append(twin.Scene.Balls, filmtest.Ball{At: vec.V{X: 0.06, Y: -0.06}, Luma: twin.Scene.Cue})
	two := filmtest.New(&twin.Scene)
	row, _ := two.Next()
	got, err := film.Find(row, radius, k.Balls)
	require.NoError(t, err)
	x, y, _ := two.Pixel(vec.V{})
	assert.Less(t, math.Hypot(got[0].Mark.X-x, got[0].Mark.Y-y), 2.0)
	_, err = film.Find(row, radius, k.Balls[:3])
	assert.ErrorIs(t, err, film.ErrNotFound)

	dark := quick(0)
	dark.Scene.Cue = dark.Scene.Cloth
	row, _ = filmtest.New(&dark.Scene).Next()
	_, err = film.Find(row, radius, k.Balls)
	assert.ErrorIs(t, err, film.ErrNotFound, "the cue ball does not stand out")

	_, err = film.Find(first, radius, k.Balls[1:])
	assert.ErrorIs(t, err, film.ErrNoCue)
	first.Luma = first.Luma[:100]
	_, err = film.Find(first, radius, k.Balls)
	assert.ErrorIs(t, err, film.ErrPicture)
}
