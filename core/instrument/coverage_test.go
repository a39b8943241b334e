package instrument_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/gear"
	"pivotbench/core/instrument"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// The errors that the instruments state (scatter.go), written out again: what is
// drawn here is not read from what is tested.
const (
	offTape   = 0.003 // m, a length along the cloth
	offHeight = 0.001
	offRuler  = 0.0005
	offAimed  = 0.001
	offTip    = 0.0007 // the tip's height
	offCloth  = 0.15   // a share of either friction
	offPlace  = 0.02   // where a ball's slide is seen to end
	offPhone  = 0.3    // degrees
	settles   = 0.25   // s, when a ball has come to rest
)

// errNoReading is a stroke that leaves nothing to read, such as a ball that stops
// before the mark.
var errNoReading = errors.New("there is nothing to read")

// covered holds the share of intervals that hold a truth between 87 and 93 %, with
// all that the instrument takes as given off by its stated size. Of 2000 intervals
// one standard error is 0.7 %. A reading that is refused is not held; no more than
// 3 % may be.
func covered[T ~float64](t *testing.T, name string, truth T, measure func(*rand.Rand) (stat.Estimate[T], error)) {
	t.Helper()
	const n = 2000
	r := rand.New(rand.NewPCG(7, 11))
	good, refused := 0, 0
	for range n {
		switch e, err := measure(r); {
		case err != nil:
			refused++
		case e.From <= truth && truth <= e.To:
			good++
		}
	}
	share := float64(good) / n
	t.Logf("%s: %.3f, %d refused", name, share, refused)
	assert.InDelta(t, 0.9, share, 0.03, name)
	assert.LessOrEqual(t, refused, n*3/100, name)
}

// truly is a cloth that differs from what the bench takes it for.
func truly(r *rand.Rand, bench gear.Cloth) gear.Cloth {
	bench.Slide *= math.Max(0.1, 1+offCloth*r.NormFloat64())
	bench.Roll *= math.Max(0.1, 1+offCloth*r.NormFloat64())
	return bench
}

// spinOff is what a tip that meets the ball higher than it is taken to adds to the
// topspin, on all strokes alike.
func spinOff(r *rand.Rand) float64 { return 2.5 * offTip / float64(ball.Radius) * r.NormFloat64() }

// pressed is how long a press of two makes of a time.
func pressed(r *rand.Rand, time unit.Span, press float64) unit.Span {
	return time + unit.Span(press*(r.NormFloat64()-r.NormFloat64()))
}

func TestSpeedHoldsTheTruth(t *testing.T) {
	for name, c := range map[string]struct {
		v       float64
		dist    unit.Length
		press   unit.Span
		topspin float64
	}{
		"slow, by sound":             {1.5, 1.2, instrument.Sound, 0},
		"slow, draw, by sound":       {1.5, 1.2, instrument.Sound, -0.8},
		"slow, rolling, by sound":    {1.5, 1.2, instrument.Sound, 1},
		"slower, follow, by sound":   {0.6, 1, instrument.Sound, 0.5},
		"close, by sound":            {2, 0.3, instrument.Sound, 0},
		"fast, by sound":             {8, 2, instrument.Sound, 0},
		"fast, draw, by sound":       {8, 2, instrument.Sound, -1},
		"rolling at the mark":        {2, 2, instrument.Thumb, 0},
		"still sliding":              {4, 2, instrument.Thumb, -1},
		"rolling on a long way":      {2, 6, instrument.Thumb, 0.3},
		"about to stop, by sound":    {2, 7, instrument.Sound, 0},
		"more spin than it rolls by": {1.5, 1.2, instrument.Sound, 1.4},
	} {
		for _, n := range []int{1, 10} {
			covered(t, name, unit.Speed(c.v), func(r *rand.Rand) (stat.Estimate[unit.Speed], error) {
				path := sent(c.v, c.topspin+spinOff(r), truly(r, normal))
				when, err := path.AtLine(c.dist + unit.Length(offTape*r.NormFloat64()))
				if err != nil {
					return stat.Estimate[unit.Speed]{}, errNoReading
				}
				runs := make([]instrument.Run, n)
				for i := range runs {
					runs[i] = instrument.Run{Dist: c.dist, Time: pressed(r, when, float64(c.press)), Press: c.press, Topspin: c.topspin, Cloth: normal}
				}
				return instrument.Speed(runs, ball.Radius)
			})
		}
	}
}

func TestSlidingHoldsTheTruth(t *testing.T) {
	for name, c := range map[string]struct {
		v, topspin float64
		dies       bool
		mark       unit.Length // 0: at the place itself, as the click of a stop shot
		press      unit.Span
	}{
		"stun, by thumb":            {3, 0, false, 2, instrument.Thumb},
		"stun, by sound":            {2.5, 0, false, 1.5, instrument.Sound},
		"a little follow":           {3.5, 0.3, false, 1.5, instrument.Sound},
		"draw until it rolls":       {2.5, -0.8, false, 2, instrument.Sound},
		"draw that dies":            {3, -0.8, true, 2.5, instrument.Thumb},
		"draw that dies, the click": {3, -0.8, true, 0, instrument.Sound},
		"a little draw, the click":  {4, -0.5, true, 0, instrument.Sound},
	} {
		for _, n := range []int{1, 4} {
			covered(t, name, normal.Slide, func(r *rand.Rand) (stat.Estimate[float64], error) {
				cloth := truly(r, normal)
				cloth.Slide = normal.Slide // what is looked for
				topspin := c.topspin + spinOff(r)
				path := sent(c.v, topspin, cloth)
				ends := path.RollStart()
				if c.dies {
					ends *= unit.Span(-topspin / (1 - topspin) * 7 / 5)
				}
				there, _ := path.At(ends)
				mark, length := c.mark, unit.Length(there.Pos.Y+offPlace*r.NormFloat64())
				if mark == 0 {
					mark = unit.Length(there.Pos.Y)
				}
				reached, err := path.AtLine(mark + unit.Length(offTape*r.NormFloat64()))
				if err != nil {
					return stat.Estimate[float64]{}, errNoReading
				}
				runs := make([]instrument.Run, n)
				for i := range runs {
					runs[i] = instrument.Run{Dist: mark, Time: pressed(r, reached, float64(c.press)), Press: c.press, Topspin: c.topspin, Cloth: normal}
				}
				return instrument.Sliding(runs, instrument.Slide{Topspin: c.topspin, Dies: c.dies, Length: length}, ball.Radius)
			})
		}
	}
}

func TestRollingToRestHoldsTheTruth(t *testing.T) {
	for name, c := range map[string]struct{ v, roll float64 }{
		"a new cloth":        {0.5, 0.005},
		"a cloth broken in":  {0.6, 0.01},
		"a slow ball":        {0.3, 0.01},
		"a worn cloth":       {0.8, 0.02},
		"a cloth like a rug": {1, 0.045},
	} {
		path := sent(c.v, 1, gear.Cloth{Slide: 0.2, Roll: c.roll, SpinDecay: 10, Rebound: 0.5})
		end, _ := path.At(path.Stop())
		for _, n := range []int{1, 12} {
			covered(t, name, c.roll, func(r *rand.Rand) (stat.Estimate[float64], error) {
				runs := make([]instrument.Rest, n)
				for i := range runs {
					runs[i] = instrument.Rest{
						Length: unit.Length(end.Pos.Y + offTape*r.NormFloat64()),
						Time:   path.Stop() + unit.Span(0.05*r.NormFloat64()+settles*r.NormFloat64()),
					}
				}
				return instrument.RestAverage(runs)
			})
		}
	}
}

// marks are readings of balls that roll past three marks: the marks are off by the
// same on all of them.
func marks(r *rand.Rand, n int, v, roll float64, second, third unit.Length, press unit.Span) ([]instrument.Marks, error) {
	path := sent(v, 1, gear.Cloth{Slide: 0.2, Roll: roll, SpinDecay: 10, Rebound: 0.5})
	t1, err := path.AtLine(second + unit.Length(offTape*r.NormFloat64()))
	if err != nil {
		return nil, errNoReading
	}
	t2, err := path.AtLine(third + unit.Length(offTape*r.NormFloat64()))
	if err != nil {
		return nil, errNoReading
	}
	runs := make([]instrument.Marks, n)
	for i := range runs {
		first := unit.Span(r.NormFloat64()) * press
		runs[i] = instrument.Marks{
			Second: second, Third: third, Press: press,
			SecondTime: t1 + unit.Span(r.NormFloat64())*press - first,
			ThirdTime:  t2 + unit.Span(r.NormFloat64())*press - first,
		}
	}
	return runs, nil
}

func TestRollingPastMarksHoldsTheTruth(t *testing.T) {
	for name, c := range map[string]struct {
		v, roll       float64
		second, third unit.Length
		press         unit.Span
	}{
		"by thumb":               {0.6, 0.01, 0.7, 1.6, instrument.Thumb},
		"by thumb, a worn cloth": {0.9, 0.02, 0.8, 1.9, instrument.Thumb},
		"by thumb, close marks":  {0.7, 0.01, 0.635, 1.27, instrument.Thumb},
		"by thumb, too fast":     {1.2, 0.01, 0.635, 1.27, instrument.Thumb},
		"by sound":               {0.8, 0.01, 0.6, 1.4, instrument.Sound},
		"by sound, a new cloth":  {1, 0.005, 0.7, 1.8, instrument.Sound},
	} {
		for _, n := range []int{1, 20} {
			covered(t, name, c.roll, func(r *rand.Rand) (stat.Estimate[float64], error) {
				runs, err := marks(r, n, c.v, c.roll, c.second, c.third, c.press)
				if err != nil {
					return stat.Estimate[float64]{}, err
				}
				return instrument.MarksAverage(runs)
			})
		}
	}
}

// Balls that seem to have gained speed count too: without them what is left is too
// high. Of many balls timed badly the average is the cloth's.
func TestRollingPastMarksIsNotHigh(t *testing.T) {
	const roll, users = 0.01, 400
	r := rand.New(rand.NewPCG(17, 18))
	sum, gained := 0.0, 0
	for range users {
		runs, err := marks(r, 30, 0.9, roll, 0.635, 1.27, instrument.Thumb)
		assert.NoError(t, err)
		for _, m := range runs {
			if _, err := m.Resistance(); err != nil {
				gained++
			}
			assert.NoError(t, m.Check())
		}
		e, err := instrument.MarksAverage(runs)
		assert.NoError(t, err)
		sum += e.Median
	}
	assert.Greater(t, gained, users*30/10, "the noise turns many of them")
	assert.InEpsilon(t, roll, sum/users, 0.04)
}

func TestElevationByTapeHoldsTheTruth(t *testing.T) {
	for _, degrees := range []float64{1, 4, 15, 45, 75} {
		theta := degrees * math.Pi / 180
		for _, apart := range []float64{0.3, 0.8} {
			if theta*apart < 0.004 {
				continue // so near level that an interval which stops at level holds it more often
			}
			covered(t, "tape", unit.Angle(theta), func(r *rand.Rand) (stat.Estimate[unit.Angle], error) {
				return instrument.Heights{
					Tip:   underside(theta, 0.1, 0.013) + unit.Length(offHeight*r.NormFloat64()),
					Butt:  underside(theta, 0.1+apart, 0.03) + unit.Length(offHeight*r.NormFloat64()),
					Apart: unit.Length(apart + offTape*r.NormFloat64()),
					// The cue's diameters are as good as a caliper across leather.
					TipThick: unit.Length(0.013 + 0.0001*r.NormFloat64()), ButtThick: unit.Length(0.03 + 0.0001*r.NormFloat64()),
				}.Estimate()
			})
		}
	}
}

func TestElevationByPhoneHoldsTheTruth(t *testing.T) {
	flat := []instrument.Tilt{{}}
	for _, degrees := range []float64{1, 5, 30, 60, 80} {
		for _, n := range []int{1, 20} {
			covered(t, "phone", unit.Angle(degrees*math.Pi/180), func(r *rand.Rand) (stat.Estimate[unit.Angle], error) {
				off := (degrees + offPhone*r.NormFloat64()) * math.Pi / 180
				up := vec.V{X: 0.1 * math.Cos(off), Y: math.Sin(off), Z: math.Sqrt(0.99) * math.Cos(off)}
				along := make([]instrument.Tilt, n)
				for i := range along {
					along[i] = seen(up)
				}
				return instrument.Level(flat, along)
			})
		}
	}
}

func TestOffsetHoldsTheTruth(t *testing.T) {
	R := float64(ball.Radius)
	for _, rho := range []float64{0.1, 0.25, 0.4, 0.55} {
		for way, x := range map[instrument.Way]func(dome, width float64) float64{
			instrument.Across:   func(_, _ float64) float64 { return rho * R },
			instrument.Straight: func(_, _ float64) float64 { return 2 * R * math.Sin(math.Asin(rho)/2) },
			instrument.Over:     func(_, _ float64) float64 { return R * math.Asin(rho) },
			instrument.Axis:     func(dome, _ float64) float64 { return rho * (R + dome) },
			instrument.Edge:     func(dome, width float64) float64 { return rho*(R+dome) + width/2 },
		} {
			sd := offRuler
			if way == instrument.Axis || way == instrument.Edge {
				sd = math.Hypot(offRuler, offAimed)
			}
			covered(t, "offset", rho, func(r *rand.Rand) (stat.Estimate[float64], error) {
				// The tip is what a profile makes of it.
				dome, width := float64(tip.Dome)+0.0004*r.NormFloat64(), float64(tip.Width)+0.0001*r.NormFloat64()
				return instrument.OffsetEstimate(way, unit.Length(x(dome, width)+sd*r.NormFloat64()), ball, tip)
			})
		}
	}
}

func TestDomeHoldsTheTruth(t *testing.T) {
	for _, c := range []struct{ radius, width float64 }{{8, 11}, {8.5, 13}, {10.6, 12}, {10.6, 13}, {15, 13}, {20, 14}} {
		rise := c.radius - math.Sqrt(c.radius*c.radius-c.width*c.width/4)
		covered(t, "dome", unit.Length(c.radius)*unit.Millimetre, func(r *rand.Rand) (stat.Estimate[unit.Length], error) {
			return instrument.Dome{
				Width: unit.Length(c.width+0.1*r.NormFloat64()) * unit.Millimetre,
				Rise:  unit.Length(rise+0.1*r.NormFloat64()) * unit.Millimetre,
			}.Estimate()
		})
	}
}

func TestBallHoldsTheTruth(t *testing.T) {
	for _, d := range []float64{52.5, 57.15, 61.5} {
		for _, c := range []struct {
			round     bool
			times, sd float64
		}{{false, 1, 0.03}, {true, math.Pi, 0.5}} {
			covered(t, "size", unit.Length(d)*unit.Millimetre, func(r *rand.Rand) (stat.Estimate[unit.Length], error) {
				return instrument.Diameter(unit.Length(d*c.times+c.sd*r.NormFloat64())*unit.Millimetre, c.round)
			})
		}
	}
	for _, m := range []float64{120, 165, 215} {
		covered(t, "weight", unit.Mass(m)*unit.Gram, func(r *rand.Rand) (stat.Estimate[unit.Mass], error) {
			return instrument.Weighed(unit.Mass(m+r.NormFloat64()) * unit.Gram)
		})
	}
}
