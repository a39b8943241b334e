package film_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/film"
	"pivotbench/core/film/filmtest"
	"pivotbench/core/gear"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// The camera that renders a picture is found again from four balls that were placed with a
// tape and marked by a thumb.
func TestCalibrateFindsTheCamera(t *testing.T) {
	t.Parallel()
	for _, seed := range []uint64{0, 1, 2, 3, 4, 5, 29} { // in the last a ball is seen as an ellipse
		k := quick(seed)
		f := filmtest.New(&k.Scene)
		first, _ := f.Next()
		stand, err := film.Calibrate(first, radius, marked(&k, f), nil)
		require.NoError(t, err, seed)
		for y := 0.1; y < 0.8; y += 0.1 {
			truth := vec.V{X: 0.03, Y: y}
			px, py, _ := f.Pixel(truth)
			at, ok := stand.Place(film.Point{X: px, Y: py})
			require.True(t, ok)
			assert.InDelta(t, truth.X, float64(at.X), 0.006, "seed %d", seed)
			assert.InDelta(t, truth.Y, float64(at.Y), 0.02, "seed %d", seed)
			back, ok := stand.Pixel(at)
			require.True(t, ok)
			assert.InDelta(t, px, back.X, 1e-3)
			assert.InDelta(t, py, back.Y, 1e-3)
		}
	}
}

// Small balls are found by their marks, though larger things lie about: a ball does not reach
// the mark of another.
func TestCalibrateFindsSmallBalls(t *testing.T) {
	t.Parallel()
	k := filmtest.Random(rand.New(rand.NewPCG(274, 11)), 1280, 720)
	f := filmtest.New(&k.Scene)
	first, _ := f.Next()
	stand, err := film.Calibrate(first, radius, marked(&k, f), nil)
	require.NoError(t, err)
	for i, b := range stand.Balls()[1:] {
		x, y, _ := f.Pixel(k.Scene.Balls[i].At)
		assert.InDelta(t, 9, b.Radius, 1)
		assert.InDelta(t, x, b.Mark.X, 1)
		assert.InDelta(t, y, b.Mark.Y, 1)
	}
}

func TestCalibrateRefuses(t *testing.T) {
	t.Parallel()
	k := quick(0)
	f := filmtest.New(&k.Scene)
	first, _ := f.Next()
	balls := marked(&k, f)
	change := func(change func([]film.Ball) []film.Ball) error {
		_, err := film.Calibrate(first, radius, change(append([]film.Ball(nil), balls...)), nil)
		return err
	}
	assert.ErrorIs(t, change(func(b []film.Ball) []film.Ball { return b[1:] }), film.ErrNoCue)
	assert.ErrorIs(t, change(func(b []film.Ball) []film.Ball { return append(b[:1], b[2:]...) }), film.ErrNoTarget)
	assert.ErrorIs(t, change(func(b []film.Ball) []film.Ball { return b[:2] }), film.ErrFewMarks)
	assert.ErrorIs(t, change(func(b []film.Ball) []film.Ball {
		b[2].Mark, b[3].Mark = b[3].Mark, b[2].Mark
		return b
	}), film.ErrMarks, "left and right the wrong way round")
	assert.ErrorIs(t, change(func(b []film.Ball) []film.Ball {
		b[1].At.Y -= 0.06
		return b
	}), film.ErrMarks, "the target is nearer than it is said to be")
	err := change(func(b []film.Ball) []film.Ball {
		b[1].Mark = film.Point{X: (b[0].Mark.X + b[1].Mark.X) / 2, Y: (b[0].Mark.Y + b[1].Mark.Y) / 2}
		return b
	})
	var which *film.BallError
	require.ErrorAs(t, err, &which, "a mark on bare cloth")
	assert.EqualError(t, err, "target ball: "+film.ErrNoBall.Error())
	assert.ErrorIs(t, err, film.ErrNoBall)

	// A phone that lies on the table sees the balls in a row.
	low := quick(0)
	low.Scene.Eye, low.Scene.Look, low.Scene.Roll = vec.V{X: 0.35, Y: -0.7, Z: 0.012}, vec.V{Y: 0.5}, 0
	flat := filmtest.New(&low.Scene)
	row, _ := flat.Next()
	_, err = film.Calibrate(row, radius, marked(&low, flat), nil)
	assert.ErrorIs(t, err, film.ErrOutside)

	first.Luma = first.Luma[:1000]
	_, err = film.Calibrate(first, radius, balls, nil)
	assert.ErrorIs(t, err, film.ErrPicture)
}

// Without blockers, marks on two rail sights serve as well.
func TestCalibrateFromRailSights(t *testing.T) {
	t.Parallel()
	k := quick(1)
	k.Scene.Noise = 1
	f := filmtest.New(&k.Scene)
	first, _ := f.Next()
	var spots []film.Spot
	for _, at := range []vec.V{{X: -0.3, Y: 0.3, Z: 0.01}, {X: 0.3, Y: 0.6, Z: 0.01}} {
		x, y, _ := f.Pixel(at)
		spots = append(spots, film.Spot{At: film.Place{X: unit.Length(at.X), Y: unit.Length(at.Y)}, Height: unit.Length(at.Z) + radius,
			Mark: film.Point{X: x, Y: y}})
	}
	stand, err := film.Calibrate(first, radius, marked(&k, f)[:2], spots)
	require.NoError(t, err)
	px, py, _ := f.Pixel(vec.V{X: 0.02, Y: 0.5})
	at, _ := stand.Place(film.Point{X: px, Y: py})
	assert.Less(t, math.Hypot(float64(at.X)-0.02, float64(at.Y)-0.5), 0.01)
}

// The balls of a shot lie where it has them: the blockers touch the gap from outside.
func TestLayout(t *testing.T) {
	t.Parallel()
	s := shot.Shot{Ball: gear.Ball{Radius: radius}, Dist: 1, Gate: gear.Gate{Dist: 0.8, Gap: 0.07}}
	var names []string
	for _, b := range film.Layout(&s) {
		names = append(names, b.Role.String())
		switch b.Role {
		case film.Cue:
			assert.Zero(t, b.At)
		case film.Target:
			assert.Equal(t, film.Place{Y: 1}, b.At)
		default:
			assert.InDelta(t, 0.035+float64(radius), math.Abs(float64(b.At.X)), 1e-12)
			assert.Equal(t, b.Role == film.Right, b.At.X > 0)
		}
	}
	assert.Equal(t, []string{"cue ball", "target ball", "left blocker", "right blocker"}, names)
	s.Gate.Gap = 0
	assert.Len(t, film.Layout(&s), 2)
	assert.Equal(t, "ball", film.Other.String())
}
