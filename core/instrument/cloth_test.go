package instrument_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/instrument"
	"pivotbench/core/motion"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// passes is when a rolling ball is at some distances, and when and where it
// stops.
func passes(t *testing.T, v, roll float64, at ...unit.Length) (times []unit.Span, stop unit.Span, end unit.Length) {
	t.Helper()
	cloth := normal
	cloth.Roll = roll
	path := sent(v, 1, cloth)
	for _, d := range at {
		when, err := path.AtLine(d)
		require.NoError(t, err)
		times = append(times, when)
	}
	last, phase := path.At(path.Stop())
	require.Equal(t, motion.Rest, phase)
	return times, path.Stop(), unit.Length(last.Pos.Y)
}

func TestRollingInvertsTheMotion(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 1000 {
		roll := between(r, 0.002, 0.05)
		v := between(r, 0.3, 1)
		_, stop, end := passes(t, v, roll)
		got, err := instrument.Rest{Length: min(end, 20), Time: stop}.Resistance()
		if end <= 20 {
			require.NoError(t, err)
			assert.InEpsilon(t, roll, got, 1e-9)
		}
		d := end * unit.Length(between(r, 0.5, 0.95))
		if d > 20 {
			continue
		}
		half := d * unit.Length(between(r, 0.2, 0.8))
		times, _, _ := passes(t, v, roll, half, d)
		got, err = instrument.Marks{Second: half, Third: d, SecondTime: times[0], ThirdTime: times[1]}.Resistance()
		require.NoError(t, err)
		assert.InEpsilon(t, roll, got, 1e-9)
	}
}

func TestRollingRefuses(t *testing.T) {
	for want, rest := range map[error]instrument.Rest{
		instrument.ErrLength:     {Length: 0, Time: 5},
		instrument.ErrOrder:      {Length: 1, Time: -1},
		instrument.ErrResistance: {Length: 1, Time: 1},
	} {
		_, err := rest.Resistance()
		assert.ErrorIs(t, err, want)
		_, err = instrument.RestAverage([]instrument.Rest{rest})
		assert.ErrorIs(t, err, want)
	}
	var short *instrument.TooShortError
	_, err := instrument.Rest{Length: 1, Time: 0.3}.Resistance()
	assert.ErrorAs(t, err, &short)
	_, err = instrument.RestAverage(nil)
	assert.ErrorIs(t, err, instrument.ErrNone)

	good := instrument.Marks{Second: 0.5, Third: 1, SecondTime: 1, ThirdTime: 2.3, Press: instrument.Thumb}
	_, err = good.Resistance()
	require.NoError(t, err)
	for want, change := range map[error]func(*instrument.Marks){
		instrument.ErrLength:     func(m *instrument.Marks) { m.Third = 30 },
		instrument.ErrOrder:      func(m *instrument.Marks) { m.SecondTime = 0 },
		instrument.ErrMarks:      func(m *instrument.Marks) { m.Third = 0.4 },
		instrument.ErrNoSlowing:  func(m *instrument.Marks) { m.ThirdTime = 1.9 },
		instrument.ErrResistance: func(m *instrument.Marks) { m.ThirdTime = 2.001 },
	} {
		bad := good
		change(&bad)
		_, err := bad.Resistance()
		assert.ErrorIs(t, err, want)
		bad.Press = instrument.Thumb / 5000 // so fine that no noise has made it
		assert.ErrorIs(t, bad.Check(), want)
		_, err = instrument.MarksAverage([]instrument.Marks{bad})
		assert.ErrorIs(t, err, want)
	}
	// All of them together may be no cloth's where any one of them might be.
	slowed := instrument.Marks{Second: 0.5, Third: 0.8, SecondTime: 0.3, ThirdTime: 0.574, Press: instrument.Thumb} // by 2 m/s²
	gained := good
	gained.ThirdTime = 1.88
	for want, m := range map[error]instrument.Marks{instrument.ErrNoSlowing: gained, instrument.ErrResistance: slowed} {
		assert.NoError(t, m.Check())
		_, err = instrument.MarksAverage(slices.Repeat([]instrument.Marks{m}, 30))
		assert.ErrorIs(t, err, want)
	}
	_, err = instrument.MarksAverage(nil)
	assert.ErrorIs(t, err, instrument.ErrNone)
	hasty := good
	hasty.SecondTime = 0.05
	_, err = hasty.Resistance()
	assert.ErrorAs(t, err, &short)

	// It would have turned back between the marks.
	var stops *instrument.StopsError
	back := good
	back.ThirdTime = 20
	_, err = back.Resistance()
	assert.ErrorAs(t, err, &stops)
}

// Where the ball begins to roll, and where draw is gone, by the motion model.
func TestSlidingInvertsTheMotion(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 1000 {
		cloth := randomCloth(r)
		v, topspin := between(r, 0.5, 6), between(r, -1.4, 0.9)
		path := sent(v, topspin, cloth)
		start, _ := path.At(path.RollStart())
		if start.Pos.Y > 20 {
			continue
		}
		s := instrument.Slide{Speed: unit.Speed(v), Topspin: topspin, Length: unit.Length(start.Pos.Y)}
		got, err := s.Friction()
		require.NoError(t, err)
		assert.InEpsilon(t, cloth.Slide, got, 1e-9)
		if topspin > -0.05 {
			continue
		}
		dies := path.RollStart() * unit.Span(-topspin/(1-topspin)*7/5) // Δ(Rω) is 5/2 of Δv, the slip's change 7/2
		there, _ := path.At(dies)
		require.InDelta(t, 0, there.Spin.X, 1e-9)
		s.Dies, s.Length = true, unit.Length(there.Pos.Y)
		got, err = s.Friction()
		require.NoError(t, err)
		assert.InEpsilon(t, cloth.Slide, got, 1e-9)
	}
}

// Timed to a mark beyond or short of the place, the speed and the friction are
// found together.
func TestSlidingWithTheSpeedUnknown(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 16))
	for range 300 {
		cloth := randomCloth(r)
		v, topspin := between(r, 0.8, 4), between(r, -1.2, 0.4)
		path := sent(v, topspin, cloth)
		start, _ := path.At(path.RollStart())
		d := unit.Length(start.Pos.Y * between(r, 0.5, 1.3))
		when, err := path.AtLine(d)
		if err != nil || d > 20 || start.Pos.Y > 20 {
			continue
		}
		wrong := cloth
		wrong.Slide = 0.2
		got, err := instrument.Sliding([]instrument.Run{{Dist: d, Time: when, Topspin: topspin, Cloth: wrong}},
			instrument.Slide{Topspin: topspin, Length: unit.Length(start.Pos.Y)}, ball.Radius)
		require.NoError(t, err)
		assert.InEpsilon(t, cloth.Slide, got.Median, 1e-9)
	}
}

func TestSlidingRefuses(t *testing.T) {
	runs := []instrument.Run{{Dist: 1.27, Time: 0.6, Press: instrument.Thumb, Cloth: normal}}
	for want, s := range map[error]instrument.Slide{
		instrument.ErrLength:   {},
		instrument.ErrTopspin:  {Length: 1, Topspin: -2},
		instrument.ErrNoSlip:   {Length: 1, Topspin: 1},
		instrument.ErrDraw:     {Length: 1, Dies: true},
		instrument.ErrFriction: {Length: 0.1},
	} {
		_, err := instrument.Sliding(runs, s, ball.Radius)
		assert.ErrorIs(t, err, want)
	}
	hurried := []instrument.Run{{Dist: 1.27, Time: 0.6, Cloth: normal}, {Dist: 1.27, Time: 0.01, Cloth: normal}}
	_, err := instrument.Sliding(hurried, instrument.Slide{Length: 4}, ball.Radius)
	assert.ErrorIs(t, err, instrument.ErrTooFast, "one of the runs is faster than any stroke")
	_, err = (&instrument.Slide{Speed: 1}).Friction()
	assert.ErrorIs(t, err, instrument.ErrLength)
	for _, speed := range []unit.Speed{0, 100} {
		_, err = (&instrument.Slide{Speed: speed, Length: 1}).Friction()
		assert.ErrorIs(t, err, instrument.ErrTooFast)
	}
	_, err = instrument.Sliding(nil, instrument.Slide{Length: 1}, ball.Radius)
	assert.ErrorIs(t, err, instrument.ErrNone)
	_, err = instrument.Sliding([]instrument.Run{{Dist: 1.27, Time: -1, Cloth: normal}}, instrument.Slide{Length: 1}, ball.Radius)
	assert.ErrorIs(t, err, instrument.ErrOrder)
	fast := instrument.Slide{Speed: 30, Length: 1}
	_, err = fast.Friction()
	assert.ErrorIs(t, err, instrument.ErrTooFast)
}

// Of the lengths that a slide may have, the shortest is that of a friction of 1
// and the longest that of 0.02: one cloth or the other still slides like that,
// and what is a hair beyond it is refused.
func TestSlidingAtTheEnds(t *testing.T) {
	runs := []instrument.Run{{Dist: 1.27, Time: 0.6, Press: instrument.Thumb, Cloth: normal}}
	for _, end := range []struct {
		within, beyond unit.Length
		friction       float64
	}{{1, 0.01, 1}, {1, 19, 0.02}} {
		var last stat.Estimate[float64]
		for range 60 {
			mid := (end.within + end.beyond) / 2
			got, err := instrument.Sliding(runs, instrument.Slide{Length: mid}, ball.Radius)
			if err == nil {
				end.within, last = mid, got
				continue
			}
			require.ErrorIs(t, err, instrument.ErrFriction)
			end.beyond = mid
		}
		assert.InEpsilon(t, end.friction, last.Median, 2e-4)
	}
}

// A ball that seems to have gained speed is taken as far as five standard
// deviations of its three presses reach, and no further. The first press is in both
// times.
func TestMarksAllowForFiveDeviations(t *testing.T) {
	r := rand.New(rand.NewPCG(61, 62))
	for range 100 {
		m := instrument.Marks{Second: unit.Length(between(r, 0.4, 1)), SecondTime: unit.Span(between(r, 0.6, 1.5)), Press: instrument.Sound}
		m.Third = m.Second * unit.Length(between(r, 1.6, 3))
		slowing := func(press []float64) float64 { // g μ, with the presses late by so much
			at := m
			at.SecondTime += unit.Span(press[1] - press[0])
			at.ThirdTime += unit.Span(press[2] - press[0])
			resistance, _ := at.Resistance() // refused or not, it is what was read
			return resistance
		}
		// Of times to the third mark, one that is slowed and one that is gained.
		slowed := m.SecondTime * unit.Span(m.Third/m.Second)
		gained := (m.SecondTime + slowed) / 2
		m.ThirdTime = gained
		require.ErrorIs(t, m.Check(), instrument.ErrNoSlowing)
		for range 60 {
			m.ThirdTime = (gained + slowed) / 2
			if m.Check() == instrument.ErrNoSlowing {
				gained = m.ThirdTime
			} else {
				slowed = m.ThirdTime
			}
		}
		press := float64(m.Press)
		sd := propagated(slowing, []float64{0, 0, 0}, []float64{press, press, press})
		assert.InEpsilon(t, -5, slowing([]float64{0, 0, 0})/sd, 1e-4, "%+v", m)
	}
}
