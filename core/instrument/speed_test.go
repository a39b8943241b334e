package instrument_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/gear"
	"pivotbench/core/instrument"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// The motion model run forward, then turned round.
func TestSpeedInvertsTheMotion(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	slid, rolled := 0, 0
	for range 3000 {
		v, topspin, cloth := between(r, 0.3, 17), between(r, -1.5, 1.5), randomCloth(r)
		path := sent(v, topspin, cloth)
		end, _ := path.At(path.Stop())
		d := unit.Length(between(r, 0.02, 0.99) * min(float64(end.Pos.Y), 19))
		when, err := path.AtLine(d)
		require.NoError(t, err)
		if when < path.RollStart() {
			slid++
		} else {
			rolled++
		}
		run := instrument.Run{Dist: d, Time: when, Topspin: topspin, Cloth: cloth}
		got, err := run.Speed()
		require.NoError(t, err, "%+v", run)
		assert.InEpsilon(t, v, float64(got), 1e-9, "%+v", run)
	}
	assert.Greater(t, slid, 300)
	assert.Greater(t, rolled, 300)
}

// Halliday, Resnick and Walker, Fundamentals of Physics: a bowling ball sent at
// 8.5 m/s without spin, friction 0.21, rolls after 1.2 s and 8.6 m, at 6.1 m/s
// (from memory). To the two figures given.
func TestBowlingBallOfTheTextbook(t *testing.T) {
	run := instrument.Run{Dist: 8.6, Time: 1.2, Cloth: gear.Cloth{Slide: 0.21, Roll: 0.001}}
	v, err := run.Speed()
	require.NoError(t, err)
	assert.InDelta(t, 8.5, float64(v), 0.1)
	mu, err := instrument.Sliding([]instrument.Run{run}, instrument.Slide{Length: 8.6}, ball.Radius)
	require.NoError(t, err)
	assert.InDelta(t, 0.21, mu.Median, 0.01) // 1.2 s stands for 1.15 to 1.25 s
}

func TestRepeatsNarrowAndScatterWidens(t *testing.T) {
	run := func(time unit.Span) instrument.Run {
		return instrument.Run{Dist: 1.27, Time: time, Press: instrument.Thumb, Cloth: normal}
	}
	width := func(runs ...instrument.Run) float64 {
		e, err := instrument.Speed(runs, ball.Radius)
		require.NoError(t, err)
		assert.Less(t, e.From, e.Median)
		return float64(e.To-e.From) / float64(e.Median)
	}
	one := width(run(0.5))
	assert.Less(t, width(run(0.5), run(0.5), run(0.5)), one/1.7)
	assert.Greater(t, width(run(0.35), run(0.5), run(0.75)), width(run(0.48), run(0.5), run(0.52)))
}

func TestSpeedRefuses(t *testing.T) {
	good := instrument.Run{Dist: 1.27, Time: 0.5, Press: instrument.Thumb, Cloth: normal}
	for want, change := range map[error]func(*instrument.Run){
		instrument.ErrOrder:   func(r *instrument.Run) { r.Time = -0.2 },
		instrument.ErrTooFast: func(r *instrument.Run) { r.Dist = 10 },
		instrument.ErrLength:  func(r *instrument.Run) { r.Dist = 0 },
		instrument.ErrTopspin: func(r *instrument.Run) { r.Topspin = -2 },
		instrument.ErrCloth:   func(r *instrument.Run) { r.Cloth = gear.Cloth{} },
	} {
		bad := good
		change(&bad)
		_, err := bad.Speed()
		assert.ErrorIs(t, err, want)
		_, err = instrument.Speed([]instrument.Run{good, bad}, ball.Radius)
		assert.ErrorIs(t, err, want)
	}
	_, err := instrument.Speed(nil, ball.Radius)
	assert.ErrorIs(t, err, instrument.ErrNone)

	quick := good
	quick.Time = 0.06
	_, err = quick.Speed()
	var short *instrument.TooShortError
	require.ErrorAs(t, err, &short)
	assert.ErrorContains(t, err, "0.10 s")
}

// A ball that would have stopped before the mark, on a cloth that rolls as much
// more easily than the bench's as it may, is refused with the time of the slowest
// that gets there; that one is taken.
func TestSpeedKnowsTheSlowest(t *testing.T) {
	run := instrument.Run{Dist: 1.27, Time: 60, Cloth: normal}
	_, err := run.Speed()
	var stops *instrument.StopsError
	require.True(t, errors.As(err, &stops))
	assert.Contains(t, err.Error(), "stopped before the mark")

	easy := normal
	easy.Roll *= 0.7
	slow, fast := 0.1, 2.0
	for range 60 {
		v := (slow + fast) / 2
		path := sent(v, 0, easy)
		if end, _ := path.At(path.Stop()); end.Pos.Y < 1.27 {
			slow = v
		} else {
			fast = v
		}
	}
	path := sent(fast, 0, easy)
	assert.InEpsilon(t, float64(path.Stop()), float64(stops.Longest), 1e-6)

	run.Time = stops.Longest * (1 - 1e-12)
	v, err := run.Speed()
	require.NoError(t, err)
	assert.InEpsilon(t, fast, float64(v), 0.25)
	run.Time = stops.Longest * (1 + 1e-9)
	_, err = run.Speed()
	assert.Error(t, err)
}

// Common practice, no source: a medium stroke is about 7 mph; a lag is soft.
func TestPaces(t *testing.T) {
	words := func(mph float64, off float64) (out []string) {
		v := unit.Speed(mph) * unit.MilePerHour
		for _, p := range instrument.PacesOf(stat.Estimate[unit.Speed]{Median: v, Interval: stat.Around(v, v*unit.Speed(off))}) {
			out = append(out, p.Word)
		}
		return out
	}
	assert.Equal(t, []string{"medium"}, words(7, 0.05))
	assert.Equal(t, []string{"slow"}, words(2, 0.05))
	assert.Contains(t, words(4, 0.05), "lag")
	assert.Equal(t, []string{"medium", "fast"}, words(9, 0.1))
	assert.Equal(t, []string{"break"}, words(22, 0.1))
}

// around is the interval that what is given makes alone: each is moved to both ends
// of its own 90 % interval, and what that does is added in quadrature, on either side
// by itself. The 1.645 is the standard Normal's.
func around(of func(name string, off float64) float64, names ...string) (from, to float64) {
	const reach = 1.6448536
	mean := of("", 0)
	var below, above float64
	for _, name := range names {
		less, more := of(name, -reach), of(name, reach)
		below = math.Hypot(below, max(0, mean-min(less, more)))
		above = math.Hypot(above, max(0, max(less, more)-mean))
	}
	return mean - below, mean + above
}

// moved is a run of which one thing that it takes as given is off by a number of its
// standard deviations.
func moved(run instrument.Run, name string, off float64) instrument.Run {
	switch name {
	case "tape":
		run.Dist += unit.Length(off * offTape)
	case "roll":
		run.Cloth.Roll *= 1 + off*offCloth
	case "slide":
		run.Cloth.Slide *= 1 + off*offCloth
	case "tip":
		run.Topspin += off * 2.5 * offTip / float64(ball.Radius)
	}
	return run
}

// With presses as good as exact, an interval is that of what is given: the answer is
// worked out anew for each.
func TestWhatIsGivenMakesTheInterval(t *testing.T) {
	r := rand.New(rand.NewPCG(71, 72))
	for i := range 100 {
		v, topspin := between(r, 1.2, 5), between(r, -1, 0.5)
		path := sent(v, topspin, normal)
		start, _ := path.At(path.RollStart())
		dist := unit.Length(between(r, 0.5, 1.5) * start.Pos.Y)
		when, err := path.AtLine(dist)
		require.NoError(t, err)
		run := instrument.Run{Dist: dist, Time: when, Press: 1e-9, Topspin: topspin, Cloth: normal}

		least, most := around(func(name string, off float64) float64 {
			run := moved(run, name, off)
			v, err := run.Speed()
			require.NoError(t, err)
			return 1 / float64(v)
		}, "tape", "roll", "slide", "tip")
		e, err := instrument.Speed([]instrument.Run{run}, ball.Radius)
		require.NoError(t, err)
		assert.InEpsilon(t, 1/most, float64(e.From), 1e-6)
		assert.InEpsilon(t, 1/least, float64(e.To), 1e-6)

		// To where it rolls, or to where its draw is gone.
		slide := instrument.Slide{Topspin: topspin, Dies: topspin < -0.3 && i%2 == 0, Length: unit.Length(start.Pos.Y)}
		if slide.Dies {
			gone, _ := path.At(path.RollStart() * unit.Span(-topspin/(1-topspin)*7/5))
			slide.Length = unit.Length(gone.Pos.Y)
		}
		low, high := around(func(name string, off float64) float64 {
			s := slide
			s.Topspin = moved(run, name, off).Topspin
			if name == "place" {
				s.Length += unit.Length(off * offPlace)
			}
			e, err := instrument.Sliding([]instrument.Run{moved(run, name, off)}, s, ball.Radius)
			require.NoError(t, err)
			return math.Log(e.Median)
		}, "tape", "roll", "place", "tip")
		mu, err := instrument.Sliding([]instrument.Run{run}, slide, ball.Radius)
		require.NoError(t, err)
		assert.InEpsilon(t, math.Exp(low), mu.From, 1e-6)
		assert.InEpsilon(t, math.Exp(high), mu.To, 1e-6)
	}
}
