package sitting

import (
	"math"
	"math/rand/v2"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Tester is a made-up player with a cue and a set-up that is a little off:
// what the strokes are to find out. It is for trying out how well they do.
type Tester struct {
	Pivot   unit.Length
	Scatter unit.Angle      // one standard deviation of a stroke's direction
	Aim     unit.Angle      // constant aim bias, positive to the right
	Errors  [setUps]float64 // of the set-up, in its standard deviations

	// What the model does not have; nothing in testers as they are drawn.
	Drift unit.Angle // of the aim bias, from each stroke to the next
	Tails float64    // the share of strokes that scatter three times as much
	Wrong float64    // the share of strokes noted down wrongly, besides the usual one
}

// Draw makes up a tester as the priors have them.
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

// Play returns where the tester's ball comes to a line when he means to play a
// shot, apart from his scatter. The errors are those of a path that is too
// short.
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

// After returns the tester as he is when he has played some strokes.
func (t Tester) After(strokes int) Tester {
	t.Aim += t.Drift * unit.Angle(strokes)
	return t
}

// stray is how far a stroke's direction is off.
func (t Tester) stray(r *rand.Rand) unit.Angle {
	if r.Float64() < t.Tails {
		t.Scatter *= 3
	}
	return t.Scatter * unit.Angle(r.NormFloat64())
}

// errs reports whether a stroke is noted down wrongly.
func (t Tester) errs(r *rand.Rand) bool { return r.Float64() < wrong+t.Wrong }

// AtGate plays a shot and notes what the gate shows.
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
	case at < -half || half == 0 && at < 0: // where the lanes overlap, the nearer blocker
		k.Seen = Left
	case at > half || half == 0:
		k.Seen = Right
	}
	return k, nil
}

// AtLine plays a shot and marks where its ball comes to a line.
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
