package hop

import (
	"errors"

	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// ErrUnsure means that some stroke may clear but none is certain to.
var ErrUnsure = errors.New("none is sure to clear; it depends on how long the tip and the table stay on the ball, so note what your own hops do")

// A Least is the lowest value at which a stroke clears, over ratios of contact times: May
// for at least one of them, Will for all. The errors say why there is none.
type Least[T ~float64] struct {
	May, Will       T
	MayErr, WillErr error
}

// none returns a Least without values.
func none[T ~float64](err error) Least[T] { return Least[T]{MayErr: err, WillErr: err} }

// LeastSpeeds returns the lowest speeds, from Slowest to Most, with everything else as in
// the shot. They are speeds of the ball or of the cue, as the shot's own is. The search
// takes steps of 2 %. Errors: those of LeastSpeed, and ErrUnsure.
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

// whyNone returns what keeps the first flight from clearing at every ratio, if it is the
// same for all: ErrNoHop or ErrFlat, otherwise ErrNone.
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

// LeastElevations returns the lowest elevations, up to Steep, at the shot's own speed.
// The search takes whole degrees.
func LeastElevations(s *shot.Shot, ratios []float64) Least[unit.Angle] {
	if err := check(s, ratios[0]); err != nil {
		return none[unit.Angle](err)
	}
	b := newBench(s, ratios, 0)
	return lowest(0, func(a unit.Angle) unit.Angle { return a + unit.Degree }, Steep, func(a unit.Angle) Class { return b.at(a, s.Speed) })
}

// fine is the number of bisections that leave less of a step than is ever shown.
const fine = 12

// lowest finds where the class stops being Touches, and where it stops being Unsure.
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
