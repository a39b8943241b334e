package sitting

import (
	"math"
	"math/rand/v2"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Tester is a simulated player with a known cue and known set-up errors. It is
// used to test how well a sitting recovers them.
type Tester struct {
	Pivot   unit.Length
	Scatter unit.Angle      // standard deviation of a stroke's direction
	Aim     unit.Angle      // constant aim bias, positive to the right
	Errors  [setUps]float64 // set-up errors, in their standard deviations

	// Effects that the model does not include. Draw leaves them at 0.
	Drift unit.Angle // change of the aim bias from each stroke to the next
	Tails float64    // share of strokes with three times the scatter
	Wrong float64    // share of strokes recorded wrongly, in addition to the model's
}

// Draw returns a tester drawn at random from the priors.
func Draw(r *rand.Rand) Tester {
	between := func(lo, hi float64) float64 { return lo * math.Pow(hi/lo, r.Float64()) }
	t := Tester{
		Pivot:   unit.Length(between(float64(PivotLeast), float64(PivotMost))),
		Scatter: unit.Angle(between(float64(ScatterLeast), float64(ScatterMost))),
		Aim:     AimSpread * unit.Angle(r.NormFloat64()),
	}
	for i := range t.Errors {
		t.Errors[i] = r.NormFloat64()
	}
	return t
}

// Play returns the sideways position, positive to the right, at which the tester's
// ball crosses a line when the tester intends to play the shot s, without scatter.
// It returns an error when the shot can't be played or the ball does not reach the
// line.
func (t Tester) Play(s shot.Shot, u SetUp, line unit.Length) (unit.Length, error) {
	s.Cue.Pivot = t.Pivot
	for d, z := range t.Errors {
		s = u.off(s, d, z)
	}
	s.AimOff += t.Aim
	var path motion.Path
	if err := s.Send(&path); err != nil {
		return 0, err
	}
	x, err := crossing(line)(&path)
	return unit.Length(x), err
}

// After returns the tester after a number of strokes, with the drift applied.
func (t Tester) After(strokes int) Tester {
	t.Aim += t.Drift * unit.Angle(strokes)
	return t
}

// stray returns a random error of a stroke's direction.
func (t Tester) stray(r *rand.Rand) unit.Angle {
	if r.Float64() < t.Tails {
		t.Scatter *= 3
	}
	return t.Scatter * unit.Angle(r.NormFloat64())
}

// errs reports at random whether a stroke is recorded wrongly.
func (t Tester) errs(r *rand.Rand) bool { return r.Float64() < wrong+t.Wrong }

// AtGate plays a shot with scatter and returns it with the outcome at its gate.
func (t Tester) AtGate(s shot.Shot, u SetUp, r *rand.Rand) (Stroke, error) {
	x, err := t.Play(s, u, s.Gate.Dist)
	if err != nil {
		return Stroke{}, err
	}
	at, half := float64(x)+float64(s.Gate.Dist)*float64(t.stray(r)), corridor(&s)
	k := Stroke{Shot: s, Seen: Clean}
	switch {
	case t.errs(r):
		k.Seen = Gate(r.IntN(int(outcomes)))
	case at < -half || half == 0 && at < 0: // a gap narrower than the ball: the nearer blocker
		k.Seen = Left
	case at > half || half == 0:
		k.Seen = Right
	}
	return k, nil
}

// AtLine plays a shot with scatter and returns it with a mark where the ball
// crosses the line of m. Only At of m is replaced.
func (t Tester) AtLine(s shot.Shot, u SetUp, m Mark, r *rand.Rand) (Stroke, error) {
	x, err := t.Play(s, u, m.Line)
	if err != nil {
		return Stroke{}, err
	}
	m.At = x + m.Line*unit.Length(t.stray(r)) + m.Read*unit.Length(r.NormFloat64())
	if t.errs(r) || m.At > m.Across || m.At < -m.Across {
		m.At = m.Across * unit.Length(r.Float64()-0.5)
	}
	return Stroke{Shot: s, Seen: m}, nil
}
