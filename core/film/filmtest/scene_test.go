package filmtest

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// plain returns a take in a small picture without noise, codec or anybody in it.
func plain(seed uint64) Take {
	k := Random(rand.New(rand.NewPCG(seed, 3)), 320, 180)
	s := &k.Scene
	s.Shake, s.Noise, s.Coarse, s.Arm, s.Hand, s.Dots, s.Constant = 0, 0, 0, 0, false, false, true
	s.Rate, s.Exposure, s.Start, s.Length = 60, 0.008, 0.1, 0.5
	return k
}

// frames renders a whole film.
func frames(k *Take) (all [][]byte) {
	f := New(&k.Scene)
	for range f.Frames() {
		p, _ := f.Next()
		all = append(all, slices.Clone(p.Luma))
	}
	return all
}

// A pixel looks at the points that appear there, distortion or not.
func TestRaysMeetTheirPoints(t *testing.T) {
	t.Parallel()
	for seed := range uint64(5) {
		k := plain(seed)
		f := New(&k.Scene)
		for _, p := range []vec.V{{}, {X: 0.1, Y: 0.5}, {X: -0.2, Y: 0.9, Z: 0.05}} {
			x, y, deep := f.Pixel(p)
			require.Positive(t, deep)
			way := p.Sub(k.Scene.Eye)
			assert.InDelta(t, 1, f.ray(x, y).Dot(way)/way.Norm(), 1e-7)
		}
	}
}

// differs returns the middle of what differs between two frames, weighed by how much.
func differs(a, b []byte, width int) (x, y, sum float64) {
	for i := range a {
		d := math.Max(0, float64(b[i])-float64(a[i])-4)
		sum += d
		x += d * (float64(i%width) + 0.5)
		y += d * (float64(i/width) + 0.5)
	}
	return x / sum, y / sum, sum
}

// A white ball far from others makes the picture brighter where its path has it in the
// middle of the exposure, and blurred along its way.
func TestMovingBallIsWhereThePathHasIt(t *testing.T) {
	t.Parallel()
	k := plain(1)
	s := &k.Scene
	s.Path = motion.Run(vec.V{X: 0.02, Y: 1.6}, vec.V{X: -1.6 / s.Radius}, unit.Length(s.Radius), k.Shot.Cloth)
	s.Shadow, s.Balls = 0, nil
	film := New(s)
	all := frames(&k)
	empty := film.back[2]
	ground := make([]byte, s.Width*s.Height)
	for y := range s.Height {
		for x := range s.Width {
			ground[y*s.Width+x] = byte(empty[(y+pad)*(s.Width+2*pad)+x+pad])
		}
	}
	for _, frame := range []int{12, 15, 18} {
		x, y, sum := differs(ground, all[frame], s.Width)
		at, _ := s.Path.At(unit.Span(float64(frame)/s.Rate + s.Exposure/2 - s.Start))
		px, py, deep := film.Pixel(at.Pos)
		r := s.Focal * s.Radius / deep
		// Its upper side is brighter, so the middle of its light lies above its own.
		assert.InDelta(t, px, x, 0.35*r)
		assert.InDelta(t, py, y, 0.6*r)
		assert.Greater(t, sum, 40*math.Pi*r*r/2)
	}
}

// The same scene gives the same film; noise has the size that is asked for.
func TestNoiseAndCodec(t *testing.T) {
	t.Parallel()
	k := plain(2)
	k.Scene.Length = 0.06
	still := frames(&k)
	assert.True(t, slices.EqualFunc(still, frames(&k), slices.Equal))
	k.Scene.Noise = 3
	noisy := frames(&k)
	sum, n := 0.0, 0.0
	for i := range noisy[0] {
		d := float64(noisy[0][i]) - float64(still[0][i])
		sum += d * d
		n++
	}
	assert.InDelta(t, 3, math.Sqrt(sum/n), 0.2)
	assert.False(t, slices.Equal(noisy[0], noisy[1]))

	// A codec keeps the picture, about, and leaves alone what hardly changes.
	k.Scene.Coarse = 30
	coded := frames(&k)
	same := 0.0
	for i := range coded[1] {
		if coded[1][i] == coded[2][i] {
			same++
		}
	}
	assert.Greater(t, same/n, 0.9)
	sum = 0
	for i := range coded[0] {
		d := float64(coded[0][i]) - float64(still[0][i])
		sum += d * d
	}
	assert.Less(t, math.Sqrt(sum/n), 15.0)
	assert.False(t, slices.Equal(still[0], coded[0]))
}

// The discrete cosine transform of a quantized block comes back to within half a step a
// coefficient (Parseval).
func TestQuantize(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 1))
	var block, was [64]float32
	for i := range block {
		block[i] = float32(40 * r.NormFloat64())
	}
	was = block
	quantize(&block, 1e-3)
	for i := range block {
		assert.InDelta(t, was[i], block[i], 0.05)
	}
}

// The ball that is hit goes on and the other slows down: momentum along the line of centres
// changes over.
func TestBallsMeet(t *testing.T) {
	t.Parallel()
	k := plain(1)
	s := &k.Scene
	s.Balls = []Ball{{At: vec.V{X: 0.01, Y: 0.3}, Luma: 200}}
	s.Path = motion.Run(vec.V{Y: 2}, vec.V{X: -2 / s.Radius}, unit.Length(s.Radius), k.Shot.Cloth)
	f := New(s)
	at := f.Contact()
	now, _ := s.Path.At(unit.Span(at))
	assert.InDelta(t, 2*s.Radius, s.Balls[0].At.Sub(now.Pos).Norm(), 1e-3)
	assert.InDelta(t, 0, f.after[0].Dot(f.after[1])/f.after[1].Norm(), 1e-9, "they part at a right angle")
	assert.Greater(t, f.after[1].Y, 0.0)
	s.Dots, s.Hand = true, true
	before := frames(&k)
	assert.False(t, slices.Equal(before[0], before[len(before)-1]))
	s.Balls = nil
	assert.True(t, math.IsInf(New(s).Contact(), 1))
	rest := vec.V{}
	assert.Equal(t, rest, gone(rest, 1))
}

// Hand, arm, a second stroke and a knock change the frames they belong in.
func TestWhatHappensInAFilm(t *testing.T) {
	t.Parallel()
	k := plain(3)
	s := &k.Scene
	s.Start, s.Length = 0.5, 0.3
	quiet := frames(&k)
	assert.True(t, slices.Equal(quiet[0], quiet[len(quiet)-1]), "nothing moves before the stroke")
	s.Hand = true
	assert.False(t, slices.Equal(quiet[5], frames(&k)[5]))
	s.Hand, s.Arm = false, 0.1
	arm := frames(&k)
	assert.True(t, slices.Equal(quiet[5], arm[5]))
	assert.False(t, slices.Equal(quiet[12], arm[12]))
	s.Arm, s.Knock = 0, 0.1
	knocked := frames(&k)
	assert.True(t, slices.Equal(quiet[5], knocked[5]))
	assert.False(t, slices.Equal(quiet[7], knocked[7]))
	s.Knock = 0
	s.Start, s.Restart, s.Length, s.Hand = 0.1, 1.5, 1.6, true
	again := frames(&k)
	assert.False(t, slices.Equal(again[3], again[30]), "the ball is away")
	s.Hand = false
	again = frames(&k)
	assert.True(t, slices.Equal(again[3], again[85]), "and back on its spot")
}
