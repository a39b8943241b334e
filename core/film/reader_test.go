package film_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/film"
	"pivotbench/core/film/filmtest"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// moved returns a picture as a camera sees it that was turned to the right by some pixels.
func moved(p film.Picture, by int) film.Picture {
	out := p
	out.Luma = slices.Clone(p.Luma)
	for y := range p.Height {
		row := p.Luma[y*p.Stride:][:p.Width]
		copy(out.Luma[y*p.Stride:], row[by:])
	}
	return out
}

// The cue ball is put back and struck again: the film holds two strokes.
func TestTwoStrokes(t *testing.T) {
	t.Parallel()
	k := quick(3)
	k.Scene.Restart, k.Scene.Length = 1.5, 1.9
	r, err := read(t, &k, 1)
	require.NoError(t, err)
	strokes, err := r.Strokes()
	require.NoError(t, err)
	require.Len(t, strokes, 2)
	assert.InDelta(t, k.Scene.Start, float64(strokes[0].Begin), 0.05)
	assert.InDelta(t, k.Scene.Restart, float64(strokes[1].Begin), 0.05)
	for _, stroke := range strokes {
		got, err := stroke.Fit(film.ExpectOf(&k.Shot))
		require.NoError(t, err)
		assert.InDelta(t, k.Launch, float64(got.Launch.Median), 0.01)
	}
}

// A hand and a cue in the picture, an arm that crosses it, and a camera that shakes do not
// keep the stroke from being read.
func TestBusyPicture(t *testing.T) {
	t.Parallel()
	k := quick(4)
	k.Scene.Hand, k.Scene.Arm, k.Scene.Shake, k.Scene.Dots = true, 0.02, 0.8, true
	k.Scene.Start, k.Scene.Length = 0.5, 0.9
	r, err := read(t, &k, 1)
	require.NoError(t, err)
	got, err := only(t, r).Fit(film.ExpectOf(&k.Shot))
	require.NoError(t, err)
	assert.InDelta(t, k.Launch, float64(got.Launch.Median), 0.015)
}

func TestFramesThatComeAgain(t *testing.T) {
	t.Parallel()
	k := quick(3)
	f := filmtest.New(&k.Scene)
	s, p := stand(t, &k, f)
	r, err := film.NewReader(s, p)
	require.NoError(t, err)
	at := 0.0
	for i := range f.Frames() {
		if i > 0 {
			p, at = f.Next()
		}
		require.NoError(t, r.Add(p, unit.Span(at)))
		require.NoError(t, r.Add(p, unit.Span(at)+0.004), "the same picture at a later time")
	}
	got, err := only(t, r).Fit(film.ExpectOf(&k.Shot))
	require.NoError(t, err)
	assert.InEpsilon(t, k.Speed, float64(got.Speed.Median), 0.05)
}

func TestStrokeIsCutOff(t *testing.T) {
	t.Parallel()
	k := quick(3)
	k.Scene.Length = k.Scene.Start - 0.05
	r, err := read(t, &k, 1)
	require.NoError(t, err)
	_, err = r.Strokes()
	assert.ErrorIs(t, err, film.ErrNoStroke)

	k.Scene.Length = k.Scene.Start + 0.05
	r, err = read(t, &k, 1)
	require.NoError(t, err)
	_, err = r.Strokes()
	assert.ErrorIs(t, err, film.ErrCutEnd)
}

// A ball that is picked up has left its spot but is not seen on its way.
func TestBallIsPickedUp(t *testing.T) {
	t.Parallel()
	k := quick(3)
	k.Scene.Start = 0.1
	k.Scene.Restart, k.Scene.Length = 1.2, 0.35 // lifted from 0 to 0.4 s
	f := filmtest.New(&k.Scene)
	lifted := quick(3)
	s, p := stand(t, &lifted, filmtest.New(&lifted.Scene))
	r, err := film.NewReader(s, p)
	require.NoError(t, err)
	require.NoError(t, r.Add(p, 0))
	for i := range f.Frames() {
		p, _ := f.Next()
		require.NoError(t, r.Add(p, unit.Span(float64(i+1)/60)))
	}
	_, err = r.Strokes()
	assert.ErrorIs(t, err, film.ErrLost)
}

func TestReaderRefusesPictures(t *testing.T) {
	t.Parallel()
	k := quick(3)
	f := filmtest.New(&k.Scene)
	s, p := stand(t, &k, f)
	start := func() *film.Reader {
		r, err := film.NewReader(s, p)
		require.NoError(t, err)
		require.NoError(t, r.Add(p, 1))
		return r
	}
	other := p
	other.Width /= 2
	r := start()
	assert.ErrorIs(t, r.Add(other, 2), film.ErrPicture)
	assert.ErrorIs(t, r.Add(p, 3), film.ErrPicture, "an error ends the reading")
	_, err := r.Strokes()
	assert.ErrorIs(t, err, film.ErrPicture)
	assert.ErrorIs(t, start().Add(p, 0.5), film.ErrTimes)
	assert.ErrorIs(t, start().Add(p, -1), film.ErrTimes)

	_, err = film.NewReader(s, other)
	assert.ErrorIs(t, err, film.ErrPicture)
	other.Luma = nil
	_, err = film.NewReader(s, other)
	assert.ErrorIs(t, err, film.ErrPicture)
}

// The camera is knocked in the middle of a film, or was moved before the next.
func TestCameraMoves(t *testing.T) {
	t.Parallel()
	k := quick(3)
	f := filmtest.New(&k.Scene)
	s, p := stand(t, &k, f)
	assert.ErrorIs(t, s.Check(moved(p, 30)), film.ErrMoved)

	r, err := film.NewReader(s, p)
	require.NoError(t, err)
	knocked := moved(p, 60)
	for i := range 120 {
		q := p
		if i >= 10 {
			q = knocked
		}
		q.Luma = slices.Clone(q.Luma)
		q.Luma[0] = byte(i) // not the same picture again
		require.NoError(t, r.Add(q, unit.Span(i)/60))
	}
	require.NoError(t, err)
	_, err = r.Strokes()
	assert.ErrorIs(t, err, film.ErrMoved)

	// A tripod that sags is followed until it has turned too far.
	r, err = film.NewReader(s, p)
	require.NoError(t, err)
	for i := range 80 {
		require.NoError(t, r.Add(moved(p, i), unit.Span(i)/60))
	}
	_, err = r.Strokes()
	assert.ErrorIs(t, err, film.ErrMoved)
}

func TestCueBallIsGone(t *testing.T) {
	t.Parallel()
	k := quick(3)
	f := filmtest.New(&k.Scene)
	s, _ := stand(t, &k, f)
	var p film.Picture
	for range f.Frames() - 1 {
		p, _ = f.Next()
	}
	assert.ErrorIs(t, s.Check(p), film.ErrCutStart)
	_, err := film.NewReader(s, p)
	assert.ErrorIs(t, err, film.ErrCutStart)
}

// A cue ball that is hardly brighter than the cloth is refused.
func TestDark(t *testing.T) {
	t.Parallel()
	k := quick(3)
	k.Scene.Cue, k.Scene.Cloth = 150, 118
	f := filmtest.New(&k.Scene)
	s, p := stand(t, &k, f)
	_, err := film.NewReader(s, p)
	assert.ErrorIs(t, err, film.ErrDark)

	// A yellowed one on a light cloth is taken: its underside is as dark as the cloth, but not
	// its upper side.
	k.Scene.Cue = 178
	s, p = stand(t, &k, filmtest.New(&k.Scene))
	_, err = film.NewReader(s, p)
	assert.NoError(t, err)
}

// The places of a stand go to pixels and back, and not beyond the horizon.
func TestStandPlaces(t *testing.T) {
	t.Parallel()
	k := quick(3)
	f := filmtest.New(&k.Scene)
	s, _ := stand(t, &k, f)
	behind := k.Scene.Eye.Add(k.Scene.Eye.Sub(vec.V{Y: 0.4}).Mul(2))
	_, ok := s.Pixel(film.Place{X: unit.Length(behind.X), Y: unit.Length(behind.Y)})
	assert.False(t, ok)
	assert.Nil(t, s.Outline(film.Place{X: unit.Length(behind.X), Y: unit.Length(behind.Y)}, 8))
	_, ok = s.Place(film.Point{X: 320, Y: -1e5})
	assert.False(t, ok)
	middle, ok := s.Pixel(film.Place{})
	assert.True(t, ok)
	ball := s.Balls()[0]
	assert.InDelta(t, ball.Mark.X, middle.X, 1)
	for _, p := range s.Outline(film.Place{}, 8) {
		assert.InEpsilon(t, ball.Radius, hypot(p, middle), 0.1)
	}
	assert.Less(t, s.Misfit(), 1.0)
}
