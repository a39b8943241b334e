package hop

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/contact"
	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

func times(from, to float64) stat.Interval[unit.Span] {
	return stat.Interval[unit.Span]{From: unit.Span(from) * unit.Millisecond, To: unit.Span(to) * unit.Millisecond}
}

func TestUsual(t *testing.T) {
	for _, c := range []struct {
		e    float64
		want stat.Interval[unit.Span]
	}{{0.5, times(1, 2)}, {0.75, times(1, 2)}, {0.8, times(0.75, 1.45)}, {0.85, times(0.5, 0.9)}, {0.95, times(0.5, 0.9)}} {
		got := Usual(gear.Tip{Restitution: c.e})
		assert.InEpsilon(t, float64(c.want.From), float64(got.Tip.From), 1e-12, "%v", c.e)
		assert.InEpsilon(t, float64(c.want.To), float64(got.Tip.To), 1e-12, "%v", c.e)
		assert.Equal(t, times(0.5, 1), got.Bed)
		assert.NoError(t, got.Check())
	}
}

func TestImpossibleTimes(t *testing.T) {
	for _, c := range []struct {
		tip, bed stat.Interval[unit.Span]
		want     error
	}{
		{times(0, 1), times(0.5, 1), ErrNoTime},
		{times(1, 2), times(-1, 1), ErrNoTime},
		{times(math.NaN(), 2), times(0.5, 1), ErrNoTime},
		{times(1, 2), times(0.5, 21), ErrLongTime},
		{times(2, 1), times(0.5, 1), ErrBackward},
		{times(1, 1), times(20, 20), nil},
	} {
		assert.Equal(t, c.want, Touch{c.tip, c.bed}.Check())
	}
	s := steep()
	var p motion.Path
	for _, e := range []float64{0, -1, 1.1, math.NaN()} {
		s.Cue.Tip.Restitution = e
		assert.ErrorIs(t, Send(&s, 1, &p), ErrNoTip)
	}
	s = steep()
	s.Contact.Side = 0.6
	assert.ErrorIs(t, Send(&s, 1, &p), strike.ErrMiscue)
}

func TestSpaced(t *testing.T) {
	got := Spaced(stat.Interval[float64]{From: 1, To: 16}, 5)
	require.Len(t, got, 5)
	for i, want := range []float64{1, 2, 4, 8, 16} {
		assert.InEpsilon(t, want, got[i], 1e-12)
	}
	assert.Equal(t, []float64{4}, Spaced(stat.Interval[float64]{From: 2, To: 8}, 1))
	assert.Equal(t, []float64{3}, Spaced(stat.Interval[float64]{From: 3, To: 3}, 9))
}

// The path is that of the press, scaled to the cue's speed.
func TestSend(t *testing.T) {
	s := steep()
	var p motion.Path
	require.NoError(t, Send(&s, 1.5, &p))
	press, cue, err := Pressed(&s, 1.5)
	require.NoError(t, err)
	assert.Equal(t, unit.Speed(5), cue)
	from := p.Segments()[0].From
	assert.Equal(t, press.Vel.Mul(5), from.Vel)
	assert.Equal(t, press.Spin.Mul(5), from.Spin)
	var inTurn motion.Path
	require.NoError(t, s.Send(&inTurn))
	require.NoError(t, Send(&s, InTurn, &p))
	assert.Equal(t, inTurn, p)
	s.ByStroke, s.Speed = false, 5*1.75/(1+0.17/0.54)
	_, cue, err = Pressed(&s, 1.5)
	require.NoError(t, err)
	assert.InEpsilon(t, 5, float64(cue), 1e-12, "the ball's speed is a free ball's")
}

// The class over several ratios combines the classes of the single ratios.
func TestClassesTogether(t *testing.T) {
	s := steep()
	s.ByStroke, s.Speed = false, 9*unit.MilePerHour
	seen := map[Class]bool{}
	for _, ratios := range [][]float64{{0.3, 4}, {0.3, 0.5}, {3, 4}, {0.3, 1.2}} {
		for _, v := range []unit.Speed{2, 3, 4, 5, 7} {
			s.Speed = v
			class := ClassOf(&s, ratios, s.Dist)
			a, b := ClassOf(&s, ratios[:1], s.Dist), ClassOf(&s, ratios[1:], s.Dist)
			switch {
			case a == b:
				assert.Equal(t, a, class)
			case a == Touches || b == Touches:
				assert.Equal(t, Unsure, class)
			default:
				assert.Equal(t, Clears, class)
			}
			seen[class] = true
		}
	}
	assert.Len(t, seen, 4)
	assert.Equal(t, Unsure, together(Unsure, Unsure))
	assert.Equal(t, Unsure, together(Lands, Unsure))
}

// The map agrees with ClassOf, ratio by ratio.
func TestMapOverRatios(t *testing.T) {
	s := steep()
	s.ByStroke = false
	ratios := []float64{0.6, 1, 1.7}
	sure := 0
	for _, c := range Map(&s, ratios, []unit.Angle{20 * unit.Degree, 40 * unit.Degree, 60 * unit.Degree}, 13, s.Dist) {
		for _, r := range c.Runs {
			at := s
			at.Elevation = c.Elevation
			for _, part := range []unit.Speed{0.1, 0.5, 0.9} {
				at.Speed = r.From + part*(r.To-r.From)
				assert.Equal(t, r.Class, ClassOf(&at, ratios, s.Dist), "%v %v", c.Elevation, at.Speed)
			}
			if r.Class == Unsure {
				sure++
			}
		}
	}
	assert.Greater(t, sure, 1)
}

// May is the least of the ratios' least speeds, and Will the greatest, if each clears at
// every higher speed.
func TestLeastSpeeds(t *testing.T) {
	s := steep()
	s.ByStroke = false
	ratios := []float64{0.5, 0.9, 1.3}
	got := LeastSpeeds(&s, ratios)
	require.NoError(t, got.MayErr)
	require.NoError(t, got.WillErr)
	low, high := unit.Speed(math.Inf(1)), unit.Speed(0)
	for _, r := range ratios {
		v, err := LeastSpeed(&s, r)
		require.NoError(t, err)
		low, high = min(low, v), max(high, v)
	}
	assert.InEpsilon(t, float64(low), float64(got.May), 1e-4)
	assert.InEpsilon(t, float64(high), float64(got.Will), 1e-4)
	assert.Greater(t, got.Will, 1.05*got.May)

	s.Speed = got.Will * 1.001
	assert.Greater(t, ClassOf(&s, ratios, 0), Unsure)
	s.Speed = got.Will * 0.999
	assert.Equal(t, Unsure, ClassOf(&s, ratios, 0))
	s.Speed = got.May * 0.999
	assert.Equal(t, Touches, ClassOf(&s, ratios, 0))
}

func TestLeastElevations(t *testing.T) {
	s := steep()
	s.ByStroke, s.Speed = false, 9*unit.MilePerHour
	ratios := []float64{0.5, 0.9}
	got := LeastElevations(&s, ratios)
	require.NoError(t, got.MayErr)
	require.NoError(t, got.WillErr)
	assert.GreaterOrEqual(t, got.Will, got.May)
	at := s
	at.Elevation = got.Will + 1e-4
	assert.Greater(t, ClassOf(&at, ratios, 0), Unsure)
	at.Elevation = got.May - 1e-3
	assert.Equal(t, Touches, ClassOf(&at, ratios, 0))
}

func TestNoLeast(t *testing.T) {
	s := steep()
	long := LeastSpeeds(&s, []float64{0.5, 4})
	assert.NoError(t, long.MayErr)
	assert.ErrorIs(t, long.WillErr, ErrUnsure)
	s.Speed = 4
	assert.ErrorIs(t, LeastElevations(&s, []float64{0.5, 4}).WillErr, ErrUnsure)
	s.Elevation = 0
	assert.ErrorIs(t, LeastSpeeds(&s, []float64{0.5, 1}).MayErr, ErrNoHop)
	s = steep()
	s.Elevation = 1 * unit.Degree
	assert.ErrorIs(t, LeastSpeeds(&s, []float64{0.3, 0.5}).MayErr, ErrFlat)
	s = steep()
	s.Gate.Dist, s.Elevation = 30, 10*unit.Degree
	assert.ErrorIs(t, LeastSpeeds(&s, []float64{0.3, 0.5}).WillErr, ErrNone)
	s = steep()
	s.Speed = 0.5
	assert.ErrorIs(t, LeastElevations(&s, []float64{0.3, 0.5}).MayErr, ErrNone)
	s.Gate.Dist = 0
	assert.ErrorIs(t, LeastSpeeds(&s, []float64{1}).MayErr, contact.ErrNoGate)
	assert.ErrorIs(t, LeastElevations(&s, []float64{1}).MayErr, contact.ErrNoGate)
}

// Narrow keeps the ratio that produced the hop seen, and removes others.
func TestNarrow(t *testing.T) {
	all := Touch{Tip: leather, Bed: slate}.Ratios()
	for _, truth := range []float64{1.1, 1.5, 2.2} {
		s := steep()
		s.Gate.Gap = 1.9 * unit.Inch
		var seen []Seen
		last := all
		for _, speed := range []unit.Speed{2, 3, 4, 6} {
			s.Speed = speed
			var p motion.Path
			require.NoError(t, Send(&s, truth, &p))
			pass, err := contact.Pass(&p, s.Gate, s.Ball.Radius)
			require.NoError(t, err)
			what := Touched
			if pass.Outcome == contact.Clean {
				what = Cleared
			}
			seen = append(seen, Seen{Shot: s, What: what})
			got, err := Narrow(all, seen)
			require.NoError(t, err)
			assert.LessOrEqual(t, got.From, truth)
			assert.GreaterOrEqual(t, got.To, truth)
			assert.GreaterOrEqual(t, got.From, last.From, "more hops never widen it")
			assert.LessOrEqual(t, got.To, last.To)
			last = got
		}
		press, cue, err := Pressed(&s, truth)
		require.NoError(t, err)
		up := press.Vel.Z * float64(cue)
		got, err := Narrow(all, append(seen, Seen{Shot: s, What: Rose, High: unit.Length(up * up / (2 * unit.Gravity))}))
		require.NoError(t, err)
		assert.LessOrEqual(t, got.From, truth)
		assert.GreaterOrEqual(t, got.To, truth)
		assert.Less(t, got.To/got.From, 2.5, "a height narrows it well")
	}
}

func TestNarrowRefuses(t *testing.T) {
	all := stat.Interval[float64]{From: 1, To: 4}
	got, err := Narrow(all, nil)
	require.NoError(t, err)
	assert.Equal(t, all, got)
	s := steep()
	high := Seen{Shot: s, What: Rose, High: 0.25}
	none := Seen{Shot: s, What: Rose, High: 0}
	got, err = Narrow(all, []Seen{high, none})
	assert.ErrorIs(t, err, ErrContradict)
	assert.Equal(t, all, got, "nothing is narrowed")
	s.Gate.Dist = 0
	for _, high := range []unit.Length{0, 0.02} {
		_, err = Narrow(all, []Seen{{Shot: s, What: Cleared, High: high}})
		assert.ErrorIs(t, err, contact.ErrNoGate)
	}
	s.Cue.Tip.Restitution = 0
	_, err = Narrow(all, []Seen{{Shot: s}})
	assert.ErrorIs(t, err, ErrNoTip)
}

// The speed of a recorded hop is known to 15 %, and a height to 6 mm. Records may be off
// by that much and no more.
func TestUncertaintyOfARecord(t *testing.T) {
	s := steep()
	press, cue, err := Pressed(&s, 1)
	require.NoError(t, err)
	up := press.Vel.Z * float64(cue)
	rise := up * up / (2 * unit.Gravity)
	fits := func(high float64) bool {
		ok, err := (&Seen{Shot: s, What: Rose, High: unit.Length(high)}).fits(1)
		require.NoError(t, err)
		return ok
	}
	assert.True(t, fits(rise*1.15*1.15+0.0059))
	assert.False(t, fits(rise*1.15*1.15+0.0061))
	assert.True(t, fits(rise*0.85*0.85-0.0059))
	assert.False(t, fits(rise*0.85*0.85-0.0061))

	// Between 0.85 and 1.15 of the least speed, both could have been seen.
	s.ByStroke = false
	least, err := LeastSpeed(&s, 1)
	require.NoError(t, err)
	at := func(part unit.Speed, what Sight) bool {
		s.Speed = least * part
		ok, err := (&Seen{Shot: s, What: what}).fits(1)
		require.NoError(t, err)
		return ok
	}
	assert.True(t, at(0.9, Cleared))
	assert.False(t, at(0.86, Cleared))
	assert.True(t, at(1.1, Touched))
	assert.False(t, at(1.2, Touched))
}

// Over a thin stack: the ball's lowest point must pass above it, and so must its round
// side before and after that.
func TestOverAStack(t *testing.T) {
	s := steep()
	var p motion.Path
	require.NoError(t, Send(&s, 0.5, &p))
	f := Flights(&p, 0)[0]
	r := s.Ball.Radius
	middle := f.Reach() / 2
	top := f.Rise()
	assert.True(t, over(&p, middle, top-0.0001, r), "at the top of the flight the way is level")
	assert.False(t, over(&p, middle, top+0.0001, r))
	// Where the ball comes down, it meets the stack before its lowest point does.
	when, err := p.AtLine(f.Reach() * 0.9)
	require.NoError(t, err)
	ball, _ := p.At(when)
	assert.False(t, over(&p, f.Reach()*0.9, unit.Length(ball.Pos.Z), r))
	assert.False(t, over(&p, f.Reach()+0.1, 0.001, r) && f.Number > 3)
	assert.False(t, over(&p, 100, 0.001, r), "it never gets there")
	s.Elevation = 0
	require.NoError(t, Send(&s, 0.5, &p))
	assert.False(t, over(&p, 0.5, 0.001, r), "on the cloth")
}

// With plays every ratio and returns the least and the greatest of each result.
func TestWithOverRatios(t *testing.T) {
	s := steep()
	ratios := []float64{0.5, 1.2, 2}
	got := With(&s, ratios, s.Cue, 5)
	require.NoError(t, got.Err)
	for _, r := range ratios {
		one := With(&s, []float64{r}, s.Cue, 5)
		for _, pair := range [][2]stat.Interval[unit.Length]{{one.Rise, got.Rise}, {one.Reach, got.Reach}, {one.Room, got.Room}} {
			assert.Equal(t, pair[0].From, pair[0].To)
			assert.LessOrEqual(t, pair[1].From, pair[0].From)
			assert.GreaterOrEqual(t, pair[1].To, pair[0].To)
		}
	}
	assert.Greater(t, got.Rise.To, 3*got.Rise.From)
	assert.Equal(t, stat.Interval[unit.Length]{From: With(&s, ratios[2:], s.Cue, 5).Rise.From, To: With(&s, ratios[:1], s.Cue, 5).Rise.To}, got.Rise)
	assert.False(t, got.Short)
	slow := With(&s, ratios, s.Cue, 0.05)
	assert.True(t, slow.Short)
	bad := s.Cue
	bad.Tip.Restitution = 0
	assert.ErrorIs(t, With(&shot.Shot{Ball: s.Ball, Cloth: s.Cloth, Hands: s.Hands, Gate: s.Gate}, ratios, bad, 5).Err, ErrNoTip)
}

// With a nearly level cue the bed hardly matters, so the rest of the bench uses the
// closed forms: up to 5°, 0.5 R of english and 3 to 13 mph, the arrival at 36 in differs
// by less than 4 mm, the direction after the strike by less than 0.2° and the speed by
// less than 3 %. The Reference says so.
func TestNearlyLevel(t *testing.T) {
	furthest, widest, fastest := 0.0, 0.0, 0.0
	for _, elevation := range []unit.Angle{0, 3, 5} {
		for _, at := range []strike.Contact{{Side: 0.2, Height: -0.3}, {Side: 0.2, Height: 0.3}, {Side: 0.4}, {Side: 0.4, Height: 0.3}, {Side: 0.5}, {Side: -0.5}} {
			for _, speed := range []unit.Speed{1.4, 3, 5.8} {
				for _, ratio := range []float64{1, 2, 4} {
					s := steep()
					s.ByStroke, s.Speed, s.Elevation, s.Contact = false, speed, elevation*unit.Degree, at
					var turn, both motion.Path
					require.NoError(t, Send(&s, InTurn, &turn))
					require.NoError(t, Send(&s, ratio, &both))
					arrives := func(p *motion.Path) float64 {
						when, err := p.AtCircle(s.Dist)
						require.NoError(t, err)
						ball, _ := p.At(when)
						return ball.Pos.X
					}
					a, b := turn.Segments()[0].From.Vel, both.Segments()[0].From.Vel
					furthest = max(furthest, math.Abs(arrives(&turn)-arrives(&both)))
					widest = max(widest, math.Abs(float64(motion.Bearing(a)-motion.Bearing(b))))
					fastest = max(fastest, math.Abs(a.Norm()/b.Norm()-1))
				}
			}
		}
	}
	assert.Less(t, furthest, 0.004)
	assert.Greater(t, furthest, 0.001, "the difference is not zero")
	assert.Less(t, widest, float64(0.2*unit.Degree))
	assert.Less(t, fastest, 0.03)
}
