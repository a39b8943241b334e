package film_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/film"
	"pivotbench/core/film/filmtest"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// read calibrates on a take's first picture and reads its frames until one is refused.
func read(t *testing.T, k *filmtest.Take) (*film.Reader, error) {
	t.Helper()
	f := filmtest.New(&k.Scene)
	p, at := f.Next()
	stand, err := film.Calibrate(p, radius, marked(k, f), nil)
	require.NoError(t, err)
	r, err := film.NewReader(stand, p)
	require.NoError(t, err)
	for i := range f.Frames() {
		if i > 0 {
			p, at = f.Next()
		}
		if err := r.Add(p, unit.Span(at)); err != nil {
			return r, err
		}
	}
	return r, nil
}

// The launch, speed and arrival that a rendered stroke has are read from its frames.
func TestStrokeIsRead(t *testing.T) {
	t.Parallel()
	k := take(8)
	k.Scene.Shake = 0.7
	r, err := read(t, &k)
	require.NoError(t, err)
	strokes, err := r.Strokes()
	require.NoError(t, err)
	require.Len(t, strokes, 1)
	assert.InDelta(t, k.Scene.Start, float64(strokes[0].Begin), 0.1)
	got, err := strokes[0].Fit(film.Centre)
	require.NoError(t, err)
	assert.NoError(t, got.SpeedErr)
	degree := math.Pi / 180
	assert.InDelta(t, k.Launch, float64(got.Launch.Median), 0.3*degree)
	assert.InEpsilon(t, k.Speed, float64(got.Speed.Median), 0.03)
	when, err := k.Scene.Path.AtLine(0.6)
	require.NoError(t, err)
	truth, _ := k.Scene.Path.At(when)
	at, err := got.Arrival(0.6)
	require.NoError(t, err)
	assert.InDelta(t, truth.Pos.X, float64(at.Median), 0.004)

	lines := []unit.Length{0.4, 0.6}
	seen, err := got.Sight(lines, 1.27)
	require.NoError(t, err)
	_, positive := stat.Cholesky(seen.Cov)
	assert.True(t, positive)
	assert.InDelta(t, float64(at.Median), float64(seen.At[1]), 1e-9)
	assert.InDelta(t, float64(at.To-at.Median)/stat.Reach90, math.Sqrt(seen.Cov[2][2]), 0.001)
	_, err = got.Sight([]unit.Length{5}, 1.27)
	assert.ErrorIs(t, err, film.ErrNoLine)

	// Frames that are struck out don't count, and the rest still tell.
	for i := range strokes[0].Frames {
		strokes[0].Frames[i].Struck = i%3 == 0
	}
	again, err := strokes[0].Fit(film.Centre)
	require.NoError(t, err)
	assert.False(t, again.Frames[3].Used)
	assert.InDelta(t, float64(got.Launch.Median), float64(again.Launch.Median), 0.2*degree)
	for i := range strokes[0].Frames {
		strokes[0].Frames[i].Struck = i > 2
	}
	_, err = strokes[0].Fit(film.Centre)
	assert.ErrorIs(t, err, film.ErrFew)
}

// A film whose times are four times too long shows a ball that hardly slows down.
func TestSlowMotionIsNoticed(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("renders a whole film")
	}
	k := take(8)
	f := filmtest.New(&k.Scene)
	p, at := f.Next()
	stand, err := film.Calibrate(p, radius, marked(&k, f), nil)
	require.NoError(t, err)
	r, err := film.NewReader(stand, p)
	require.NoError(t, err)
	for range f.Frames() {
		require.NoError(t, r.Add(p, unit.Span(4*at)))
		p, at = f.Next()
	}
	strokes, err := r.Strokes()
	require.NoError(t, err)
	got, err := strokes[0].Fit(film.Centre)
	require.NoError(t, err)
	assert.ErrorIs(t, got.SpeedErr, film.ErrSlowMotion)
	assert.InDelta(t, k.Launch, float64(got.Launch.Median), 0.5*math.Pi/180)
}

func TestReaderRefuses(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("renders a whole film")
	}
	k := take(8)
	k.Scene.Arm, k.Scene.Hand = 0, false
	whole := k.Scene.Length

	k.Scene.Length = k.Scene.Start - 0.1
	r, err := read(t, &k)
	require.NoError(t, err)
	_, err = r.Strokes()
	assert.ErrorIs(t, err, film.ErrNoStroke)

	k.Scene.Length = k.Scene.Start + 0.06
	r, err = read(t, &k)
	require.NoError(t, err)
	_, err = r.Strokes()
	assert.ErrorIs(t, err, film.ErrCutEnd)

	k.Scene.Length = whole
	k.Scene.Start = 0.01
	f := filmtest.New(&k.Scene)
	p, _ := f.Next()
	stand, err := film.Calibrate(p, radius, marked(&k, f), nil)
	require.NoError(t, err)
	reader, err := film.NewReader(stand, p)
	require.NoError(t, err)
	require.NoError(t, reader.Add(p, 1))
	assert.ErrorIs(t, reader.Add(p, 0.5), film.ErrTimes)
	assert.ErrorIs(t, reader.Add(p, 2), film.ErrTimes, "an error ends the reading")
	for range 12 {
		p, _ = f.Next()
	}
	assert.ErrorIs(t, stand.Check(p), film.ErrCutStart)
	p.Width /= 2
	assert.ErrorIs(t, stand.Check(p), film.ErrPicture)
}
