package film_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"pivotbench/core/film"
	"pivotbench/core/film/filmtest"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

const radius = 1.125 * unit.Inch

// quick returns a random take that is quickly rendered and read: a small picture, few frames,
// a still camera and nobody in the way.
func quick(seed uint64) filmtest.Take {
	k := filmtest.Random(rand.New(rand.NewPCG(seed, 1)), 640, 360)
	s := &k.Scene
	s.Shake, s.Arm, s.Hand, s.Dots = 0, 0, false, false
	s.Rate, s.Exposure = 60, 0.006
	s.Noise, s.Coarse = 1.5, 4
	s.Start, s.Length = 0.15, 0.55
	return k
}

// marked returns a take's balls with marks as a thumb would set them, off by a quarter of a
// radius.
func marked(k *filmtest.Take, f *filmtest.Film) []film.Ball {
	r := rand.New(rand.NewPCG(k.Scene.Seed, 2))
	balls := slices.Clone(k.Balls)
	for i := range balls {
		at := vec.V{}
		if i > 0 {
			at = k.Scene.Balls[i-1].At
		}
		x, y, deep := f.Pixel(at)
		off := 0.25 * k.Scene.Focal * k.Scene.Radius / deep
		balls[i].Mark = film.Point{X: x + off*r.NormFloat64(), Y: y + off*r.NormFloat64()}
	}
	return balls
}

// stand calibrates on the first picture of a film.
func stand(t *testing.T, k *filmtest.Take, f *filmtest.Film) (*film.Stand, film.Picture) {
	t.Helper()
	first, _ := f.Next()
	s, err := film.Calibrate(first, radius, marked(k, f), nil)
	require.NoError(t, err)
	return s, first
}

// read reads a take whose times are stretched by a factor, until a frame is refused.
func read(t *testing.T, k *filmtest.Take, slow float64) (*film.Reader, error) {
	t.Helper()
	f := filmtest.New(&k.Scene)
	s, p := stand(t, k, f)
	r, err := film.NewReader(s, p)
	require.NoError(t, err)
	at := 0.0
	for i := range f.Frames() {
		if i > 0 {
			p, at = f.Next()
		}
		if err := r.Add(p, unit.Span(slow*at)); err != nil {
			return r, err
		}
	}
	return r, nil
}

// only returns the one stroke of a film.
func only(t *testing.T, r *film.Reader) *film.Stroke {
	t.Helper()
	strokes, err := r.Strokes()
	require.NoError(t, err)
	require.Len(t, strokes, 1)
	return strokes[0]
}
