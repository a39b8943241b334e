package film_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/film"
	"pivotbench/core/film/filmtest"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// The first picture has the ball on its way already, which the camera's place takes for its spot.
func TestFilmBeginsMidway(t *testing.T) {
	t.Parallel()
	k := quick(3)
	k.Scene.Start, k.Scene.Length = -0.02, 0.3
	f := filmtest.New(&k.Scene)
	first, _ := f.Next()
	balls := marked(&k, f)
	now, _ := k.Scene.Path.At(0.02)
	balls[0].Mark.X, balls[0].Mark.Y, _ = f.Pixel(now.Pos)
	st, err := film.Calibrate(first, radius, balls, nil)
	require.NoError(t, err)
	r, err := film.NewReader(st, first)
	require.NoError(t, err)
	require.NoError(t, r.Add(first, 0))
	for range f.Frames() - 1 {
		p, at := f.Next()
		require.NoError(t, r.Add(p, unit.Span(at)))
	}
	_, err = r.Strokes()
	assert.ErrorIs(t, err, film.ErrCutStart)
}

// A ball that stops short, and then stands for longer than it rolled.
func TestBallStopsShort(t *testing.T) {
	t.Parallel()
	k := quick(3)
	s := &k.Scene
	s.Path = rolling(0.25, 0.01)
	s.Rate, s.Exposure, s.Length = 10, 0.03, 8
	r, err := read(t, &k, 1)
	require.NoError(t, err)
	stroke := only(t, r)
	e := film.Centre
	e.Ahead, e.AheadOff, e.Across, e.AcrossOff = 0, 0.05, 0, 0.01
	got, err := stroke.Fit(e)
	require.NoError(t, err)
	within(t, 0.01, got.Launch, 0.008)
	within(t, 0.25, got.Speed, 0.02)
	assert.Less(t, got.Rms, 0.2)
}

// The ball is put back 1 cm from its spot, and struck again: the stroke from the spot is the one
// that counts.
func TestBallIsPutBackElsewhere(t *testing.T) {
	t.Parallel()
	k := quick(3)
	s := &k.Scene
	s.Rate, s.Restart, s.Length, s.Back = 30, 1.6, 2.1, vec.V{X: 0.01, Y: 0.01}
	r, err := read(t, &k, 1)
	require.NoError(t, err)
	stroke := only(t, r)
	assert.Less(t, stroke.Frames[len(stroke.Frames)-1].Time, unit.Span(s.Restart))
	got, err := stroke.Fit(film.ExpectOf(&k.Shot))
	require.NoError(t, err)
	within(t, k.Launch, got.Launch, 0.006)
}
