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

// AtGate plays a shot and notes what the gate shows.
func (t Tester) AtGate(s shot.Shot, u SetUp, r *rand.Rand) (Stroke, error) {
	x, err := t.Play(s, u, s.Gate.Dist)
	if err != nil {
		return Stroke{}, err
	}
	at, half := float64(x)+float64(s.Gate.Dist)*float64(t.Scatter)*r.NormFloat64(), corridor(&s)
	k := Stroke{Shot: s, Seen: Clean}
	switch {
	case r.Float64() < wrong:
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
	m.At = x + m.Line*unit.Length(float64(t.Scatter)*r.NormFloat64()) + m.Read*unit.Length(r.NormFloat64())
	if r.Float64() < wrong || m.At > m.Across || m.At < -m.Across {
		m.At = m.Across * unit.Length(r.Float64()-0.5)
	}
	return Stroke{Shot: s, Seen: m}, nil
}
