package film_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/film"
	"pivotbench/core/film/filmtest"
	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// rolling returns the path of a ball that rolls at once.
func rolling(speed, heading float64) motion.Path {
	sin, cos := math.Sincos(heading)
	v := vec.V{X: speed * sin, Y: speed * cos}
	return motion.Run(v, vec.V{X: -v.Y / float64(radius), Y: v.X / float64(radius)}, radius, quick(3).Shot.Cloth)
}

// A stroke is read whatever the number of frames a second, even one so slow that the ball moves
// by less than a pixel from one frame to the next.
func TestFrameRates(t *testing.T) {
	t.Parallel()
	for rate, speed := range map[float64]float64{30: 2.2, 120: 1, 240: 0.5} {
		t.Run(fmt.Sprint(rate), func(t *testing.T) {
			t.Parallel()
			k := quick(3)
			s := &k.Scene
			s.Path = rolling(speed, 0.01)
			s.Rate, s.Exposure = rate, 0.8/math.Max(rate, 120)
			s.Length = s.Start + 0.4/math.Sqrt(speed)
			r, err := read(t, &k, 1)
			require.NoError(t, err)
			e := film.Centre
			e.Ahead, e.AheadOff, e.Across, e.AcrossOff = 0, 0.05, 0, 0.01
			got, err := only(t, r).Fit(e)
			require.NoError(t, err)
			within(t, 0.01, got.Launch, 0.008)
			within(t, speed, got.Speed, 0.03*speed)
		})
	}
}

// A blocker that is nudged rolls away slowly and looks as it did. That is not taken for the
// camera's movement, even while a hand hides all other balls, and the stroke that follows when
// the balls are back is read.
func TestBallIsNudged(t *testing.T) {
	t.Parallel()
	k := quick(3)
	f := filmtest.New(&k.Scene)
	st, first := stand(t, &k, f)
	first.Luma = slices.Clone(first.Luma)
	r, err := film.NewReader(st, first)
	require.NoError(t, err)
	const nudged = 200
	for i := range nudged {
		p := first
		p.Luma = slices.Clone(first.Luma)
		for _, b := range st.Balls() {
			size := 1.6 * b.Radius
			switch {
			case b.Role == film.Right:
				for y := int(b.Mark.Y - size); y < int(b.Mark.Y+size); y++ {
					row := p.Luma[y*p.Stride:]
					from, to := int(b.Mark.X-size), int(b.Mark.X+size)
					copy(row[from+i/8:], first.Luma[y*p.Stride:][from:to])
				}
			case b.Role != film.Cue && i > 40:
				for y := int(b.Mark.Y - size); y < int(b.Mark.Y+size); y++ {
					clear(p.Luma[y*p.Stride:][int(b.Mark.X-size):int(b.Mark.X+size)])
				}
			}
		}
		require.NoError(t, r.Add(p, unit.Span(i)/240))
	}
	for range f.Frames() - 1 {
		p, at := f.Next()
		require.NoError(t, r.Add(p, unit.Span(at)+nudged/240.))
	}
	got, err := only(t, r).Fit(film.ExpectOf(&k.Shot))
	require.NoError(t, err)
	within(t, k.Launch, got.Launch, 0.006)
}

// Something hides the ball in mid-way for longer than four frames. It is found again beyond.
func TestBallIsHiddenOnItsWay(t *testing.T) {
	t.Parallel()
	k := quick(3)
	s := &k.Scene
	s.Path = rolling(2.2, 0.01)
	s.Rate, s.Exposure, s.Length = 240, 0.003, s.Start+0.35
	f := filmtest.New(s)
	st, p := stand(t, &k, f)
	post, ok := st.Pixel(film.Place{Y: 0.3})
	require.True(t, ok)
	half := st.Balls()[0].Radius
	hide := func(p film.Picture) {
		for y := range p.Height {
			for x := int(post.X - half); x < int(post.X+half); x++ {
				p.Luma[y*p.Stride+x] = 60
			}
		}
	}
	hide(p)
	r, err := film.NewReader(st, p)
	require.NoError(t, err)
	at := 0.0
	for i := range f.Frames() {
		if i > 0 {
			p, at = f.Next()
			hide(p)
		}
		require.NoError(t, r.Add(p, unit.Span(at)))
	}
	seen := only(t, r).Frames
	before, after := 0, 0
	for _, frame := range seen {
		if frame.At.X > post.X { // the ball comes from the right
			before++
		} else {
			after++
		}
	}
	assert.Greater(t, before, 10)
	assert.Greater(t, after, 10)
}
