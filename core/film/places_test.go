package film_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/film"
	"pivotbench/core/film/filmtest"
	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// astray returns how far the places of a stroke's frames are from where the renderer has the
// ball, in pixels along and across the way, and how far the ball has come, in radii.
func astray(k *filmtest.Take, frames []film.Frame) (along, across, far []float64) {
	s := &k.Scene
	f := filmtest.New(s)
	for i := range frames {
		middle := s.Exposure/2 - s.Start
		now, _ := s.Path.At(frames[i].Time + unit.Span(middle))
		next, _ := s.Path.At(frames[i].Time + unit.Span(middle+0.01))
		x, y, _ := f.Pixel(now.Pos)
		wx, wy, _ := f.Pixel(next.Pos)
		wx, wy = wx-x, wy-y
		size := math.Hypot(wx, wy)
		dx, dy := frames[i].At.X-x, frames[i].At.Y-y
		along, across = append(along, (dx*wx+dy*wy)/size), append(across, (dy*wx-dx*wy)/size)
		far = append(far, now.Pos.Norm()/s.Radius)
	}
	return along, across, far
}

// spread returns the mean and the standard deviation of v where the ball has come so far.
func spread(v, far []float64, from, to float64) (mean, sd float64) {
	n, sum, squares := 0.0, 0.0, 0.0
	for i := range v {
		if far[i] >= from && far[i] < to {
			n, sum, squares = n+1, sum+v[i], squares+v[i]*v[i]
		}
	}
	return sum / n, math.Sqrt(squares/n - sum*sum/(n*n))
}

// A slow ball is found as well next to its spot, where its shadow was, as further on.
func TestPlacesNextToTheSpot(t *testing.T) {
	t.Parallel()
	k := quick(7)
	k.Scene.Shadow = 0.6
	k.Scene.Path = motion.Run(vec.V{Y: 0.8}, vec.V{X: -0.3 / k.Scene.Radius}, radius, k.Shot.Cloth)
	r, err := read(t, &k, 1)
	require.NoError(t, err)
	along, across, far := astray(&k, only(t, r).Frames)
	near, _ := spread(along, far, 2, 5)
	later, _ := spread(along, far, 6, 12)
	assert.InDelta(t, later, near, 0.35)
	near, _ = spread(across, far, 2, 5)
	later, _ = spread(across, far, 6, 12)
	assert.InDelta(t, later, near, 0.1)
}

// Dots that come and go as a ball rolls do not move it to and fro.
func TestPlacesOfDottedBall(t *testing.T) {
	t.Parallel()
	k := quick(1)
	k.Scene.Dots = true
	k.Scene.Path = motion.Run(vec.V{Y: 1.2}, vec.V{X: -1.2 / k.Scene.Radius}, radius, k.Shot.Cloth)
	r, err := read(t, &k, 1)
	require.NoError(t, err)
	along, across, far := astray(&k, only(t, r).Frames)
	_, sd := spread(along, far, 4, 30)
	assert.Less(t, sd, 0.15)
	_, sd = spread(across, far, 4, 30)
	assert.Less(t, sd, 0.1)
}

// The rows of a picture are exposed one after another. A ball that comes towards the camera
// down the picture is then seen later than the frame's time says, and its speed is known less
// well than that of a ball that crosses the picture; the launch is not.
func TestRowsExposedInTurn(t *testing.T) {
	t.Parallel()
	var got [2]*film.Result
	for i, eye := range []vec.V{{X: -0.1, Y: 1.7, Z: 0.7}, {X: -1.1, Y: 0.5, Z: 0.7}} {
		k := quick(3)
		s := &k.Scene
		s.Eye, s.Look, s.Roll, s.Readout = eye, vec.V{Y: 0.5}, 0, 0.014
		r, err := read(t, &k, 1)
		require.NoError(t, err)
		got[i], err = only(t, r).Fit(film.ExpectOf(&k.Shot))
		require.NoError(t, err)
		within(t, k.Launch, got[i].Launch, 0.004)
		within(t, k.Speed, got[i].Speed, 0.03*k.Speed)
	}
	width := func(r *film.Result) float64 { return float64((r.Speed.To - r.Speed.From) / r.Speed.Median) }
	assert.Greater(t, width(got[0]), 1.5*width(got[1]))
}
