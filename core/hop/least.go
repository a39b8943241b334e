package hop

import (
	"errors"

	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// ErrUnsure is why no stroke is known to clear.
var ErrUnsure = errors.New("none clears for certain: it hangs on how long tip and bed are in touch, which a hop you have seen can narrow")

// A Least is the lowest of something at which a stroke clears, over ratios of
// contact times: May for one of them at least, Will for all. An error says why
// there is none.
type Least[T ~float64] struct {
	May, Will       T
	MayErr, WillErr error
}

// none is a Least of nothing.
func none[T ~float64](err error) Least[T] { return Least[T]{MayErr: err, WillErr: err} }

// LeastSpeeds is the lowest speed, from Slowest to Most, with everything else as
// it is; of the ball or the cue as the shot's own is. It is looked for in steps
// of 2 %. Errors as in LeastSpeed, and ErrUnsure.
func LeastSpeeds(s *shot.Shot, ratios []float64) Least[unit.Speed] {
	if err := check(s, ratios[0]); err != nil {
		return none[unit.Speed](err)
	}
	b := newBench(s, ratios, 0)
	const step = 1.02
	out := lowest(Slowest, func(v unit.Speed) unit.Speed { return v * step }, Most, func(v unit.Speed) Class { return b.at(s.Elevation, v) })
	if out.MayErr != nil {
		return none[unit.Speed](whyNone(s, ratios))
	}
	return out
}

// whyNone is what keeps every ratio's first flight from clearing, if that is
// one thing: ErrNoHop or ErrFlat, else ErrNone.
func whyNone(s *shot.Shot, ratios []float64) error {
	_, why := FirstFlight(s, ratios[0])
	same := why != nil
	for _, r := range ratios[1:] {
		_, err := FirstFlight(s, r)
		same = same && err == why
	}
	if !same {
		return ErrNone
	}
	return why
}

// LeastElevations is the lowest elevation, up to Steep, at the shot's own speed.
// It is looked for in whole degrees.
func LeastElevations(s *shot.Shot, ratios []float64) Least[unit.Angle] {
	if err := check(s, ratios[0]); err != nil {
		return none[unit.Angle](err)
	}
	b := newBench(s, ratios, 0)
	return lowest(0, func(a unit.Angle) unit.Angle { return a + unit.Degree }, Steep, func(a unit.Angle) Class { return b.at(a, s.Speed) })
}

// fine is as many rounds as leave less of a step than is ever shown.
const fine = 12

// lowest looks for where classes leave Touches, and where they leave Unsure.
func lowest[T ~float64](from T, next func(T) T, to T, at func(T) Class) Least[T] {
	out := Least[T]{MayErr: ErrNone, WillErr: ErrNone}
	last := T(-1)
	for v := from; v <= to; v = next(v) {
		class := at(v)
		if class != Touches && out.MayErr != nil {
			out.May, out.MayErr = halve(last, v, fine, func(v T) bool { return at(v) != Touches }), nil
			out.WillErr = ErrUnsure
		}
		if class > Unsure {
			out.Will, out.WillErr = halve(last, v, fine, func(v T) bool { return at(v) > Unsure }), nil
			break
		}
		last = v
	}
	return out
}
