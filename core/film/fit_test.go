package film_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/film"
	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

func hypot(a, b film.Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// within asserts that an estimate holds the truth three standard deviations about, and is
// not so wide that this means nothing.
func within[T ~float64](t *testing.T, truth float64, got stat.Estimate[T], most float64) {
	t.Helper()
	sd := float64(got.To-got.From) / 2 / stat.Reach90
	assert.InDelta(t, truth, float64(got.Median), 3*sd)
	assert.Less(t, sd, most)
}

// Launch, speed and the place at a line are read from the frames of a rendered stroke.
func TestStrokeIsRead(t *testing.T) {
	t.Parallel()
	k := quick(3)
	k.Scene.Length = 0.8 // until it meets a ball
	r, err := read(t, &k, 1)
	require.NoError(t, err)
	stroke := only(t, r)
	got, err := stroke.Fit(film.ExpectOf(&k.Shot))
	require.NoError(t, err)
	assert.NoError(t, got.SpeedErr)
	within(t, k.Launch, got.Launch, 0.006)
	within(t, k.Speed, got.Speed, 0.05*k.Speed)
	when, err := k.Scene.Path.AtLine(0.4)
	require.NoError(t, err)
	truth, _ := k.Scene.Path.At(when)
	at, err := got.Arrival(0.4)
	require.NoError(t, err)
	within(t, truth.Pos.X, at, 0.004)
	assert.Less(t, got.Rms, 1.0)

	// The same as evidence about the cue.
	seen, err := got.Sight([]unit.Length{0.3, 0.4}, 1.27)
	require.NoError(t, err)
	_, positive := stat.Cholesky(seen.Cov)
	assert.True(t, positive)
	assert.InDelta(t, float64(at.Median), float64(seen.At[1]), 1e-9)
	assert.InDelta(t, float64(at.To-at.Median)/stat.Reach90, math.Sqrt(seen.Cov[2][2]), 0.0005)
	_, err = got.Sight([]unit.Length{5}, 1.27)
	assert.ErrorIs(t, err, film.ErrNoLine)
	_, err = got.Arrival(5)
	assert.ErrorIs(t, err, film.ErrNoLine)

	// Frames that are struck out don't count, and the rest still tell.
	stroke.Frames[2].Struck = true
	again, err := stroke.Fit(film.ExpectOf(&k.Shot))
	require.NoError(t, err)
	assert.False(t, again.Frames[2].Used)
	within(t, k.Launch, again.Launch, 0.006)

	// One bad frame is left out without being told.
	stroke.Frames[4].At.Y += 9
	again, err = stroke.Fit(film.ExpectOf(&k.Shot))
	require.NoError(t, err)
	assert.False(t, again.Frames[4].Used)
	within(t, k.Launch, again.Launch, 0.006)

	// Frames that lie on no path at all are refused.
	for i := range stroke.Frames {
		stroke.Frames[i].At.Y += 8 * float64(i%2)
	}
	_, err = stroke.Fit(film.ExpectOf(&k.Shot))
	assert.ErrorIs(t, err, film.ErrResidual)
	for i := range stroke.Frames {
		stroke.Frames[i].Struck = i > 2
	}
	_, err = stroke.Fit(film.ExpectOf(&k.Shot))
	assert.ErrorIs(t, err, film.ErrFew)
}

// A ball that slides, rolls and nearly stops tells both frictions of the cloth that package
// motion had it run on (Coriolis: a centre ball rolls after 2v/(7μg), at 5/7 of its speed, and
// then loses μg a second).
func TestFriction(t *testing.T) {
	t.Parallel()
	k := quick(3)
	cloth := gear.Cloth{Slide: 0.17, Roll: 0.014, SpinDecay: 10, Rebound: 0.5}
	k.Scene.Path = motion.Run(vec.V{X: 0.004, Y: 0.9}, vec.V{}, radius, cloth)
	k.Scene.Rate, k.Scene.Exposure, k.Scene.Length = 60, 0.005, 1.8
	r, err := read(t, &k, 1)
	require.NoError(t, err)
	stroke := only(t, r)
	got, err := stroke.Friction()
	require.NoError(t, err)
	require.NoError(t, got.RollErr)
	require.NoError(t, got.SlideErr)
	within(t, cloth.Roll, got.Roll, 0.1*cloth.Roll)
	within(t, cloth.Slide, got.Slide, 0.15*cloth.Slide)

	// The first few frames tell nothing of how it rolls.
	for i := range stroke.Frames {
		stroke.Frames[i].Struck = i > 8
	}
	got, err = stroke.Friction()
	require.NoError(t, err)
	assert.ErrorIs(t, got.RollErr, film.ErrNoFriction)
	assert.Zero(t, got.Roll)

	// And where it rolls already, how it slid.
	for i := range stroke.Frames {
		stroke.Frames[i].Struck = i < 20
	}
	got, err = stroke.Friction()
	require.NoError(t, err)
	assert.ErrorIs(t, got.SlideErr, film.ErrNoFriction)
	assert.Zero(t, got.Slide)

	for i := range stroke.Frames {
		stroke.Frames[i].Struck = i > 2
	}
	_, err = stroke.Friction()
	assert.ErrorIs(t, err, film.ErrFew)
	for i := range stroke.Frames {
		stroke.Frames[i].Struck = false
		stroke.Frames[i].At.Y += 8 * float64(i%2)
	}
	_, err = stroke.Friction()
	assert.ErrorIs(t, err, film.ErrResidual)

	// A film that is slowed four times shows a ball that hardly slows down.
	r, err = read(t, &k, 4)
	require.NoError(t, err)
	_, err = only(t, r).Friction()
	assert.ErrorIs(t, err, film.ErrSlowMotion)
}

// A ball that comes to no line beyond where it stops, or one that rolled at once and may have
// swerved before the first frame.
func TestSlowRoll(t *testing.T) {
	t.Parallel()
	k := quick(3)
	const roll, speed = 0.014, 0.42
	k.Scene.Path = motion.Run(vec.V{X: 0.004, Y: speed}, vec.V{X: -speed / float64(radius)}, radius, gear.Cloth{Slide: 0.2, Roll: roll, SpinDecay: 10, Rebound: 0.5})
	k.Scene.Rate, k.Scene.Exposure, k.Scene.Length = 15, 0.01, 3.5
	r, err := read(t, &k, 1)
	require.NoError(t, err)
	stroke := only(t, r)
	e := film.Centre
	e.Ahead, e.AheadOff = 0, 0.1
	_, err = stroke.Fit(e)
	assert.ErrorIs(t, err, film.ErrVague)
	e.AcrossOff = 0.01
	got, err := stroke.Fit(e)
	require.NoError(t, err)
	last := got.Frames[len(got.Frames)-1].Place.Y
	_, err = got.Arrival(1.2 * last)
	assert.ErrorIs(t, err, film.ErrNoLine)
	_, err = got.Sight([]unit.Length{1.2 * last}, 1.27)
	assert.ErrorIs(t, err, film.ErrNoLine)

	// An expectation that leaves nothing open can't be met.
	_, err = stroke.Fit(film.Expect{})
	assert.ErrorIs(t, err, film.ErrResidual)
}

// A film whose times are too long shows a ball that hardly slows down: four times in one of 60
// frames a second, eight times in one of 240 that is played at 30.
func TestSlowMotion(t *testing.T) {
	t.Parallel()
	for rate, slow := range map[float64]float64{60: 4, 240: 8} {
		k := quick(3)
		k.Scene.Rate, k.Scene.Exposure, k.Scene.Length = rate, 0.0035, 0.35+12/rate
		r, err := read(t, &k, slow)
		require.NoError(t, err)
		got, err := only(t, r).Fit(film.ExpectOf(&k.Shot))
		require.NoError(t, err)
		require.ErrorIs(t, got.SpeedErr, film.ErrSlowMotion)
		assert.InDelta(t, k.Launch, float64(got.Launch.Median), 0.02)
		seen, err := got.Sight(nil, 1.27)
		require.NoError(t, err)
		assert.Greater(t, seen.Cov[1][1], 1000.0, "the speed tells nothing")
	}
}

// A shot as it is meant tells what spin to expect; one that can't be played tells nothing.
func TestExpect(t *testing.T) {
	t.Parallel()
	k := quick(3)
	s := k.Shot
	s.Contact.Side, s.Contact.Height, s.Elevation = 0, 0, 0
	e := film.ExpectOf(&s)
	// A centre ball slides all over at first (Coriolis).
	assert.InDelta(t, 1, e.Ahead, 1e-9)
	assert.InDelta(t, 0, e.Across, 1e-9)
	assert.InDelta(t, 0, e.Rise, 1e-9)
	assert.Greater(t, e.AcrossOff, 0.0)
	s.Contact.Height = 0.4 // the height at which a ball rolls at once, 7/5 of the radius (Coriolis)
	assert.InDelta(t, 0, film.ExpectOf(&s).Ahead, 0.1)
	s.Contact.Height, s.Contact.Side, s.Elevation = 0, 0.4, 5*unit.Degree
	raised := film.ExpectOf(&s)
	assert.Less(t, raised.Across, -0.05, "right english under a raised cue swerves to the right")
	assert.Greater(t, raised.Rise, 0.03)
	s.Contact.Side = 2
	assert.Equal(t, film.Centre, film.ExpectOf(&s))
	assert.Equal(t, film.Centre, film.ExpectOf(&shot.Shot{Ball: k.Shot.Ball, Cue: k.Shot.Cue, Hands: k.Shot.Hands}))
}
