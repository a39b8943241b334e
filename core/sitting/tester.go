package sitting

import (
	"math"
	"math/rand/v2"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// A Tester is a simulated player with a known cue and known set-up errors. It is
// used to test how well a sitting recovers them.
type Tester struct {
	Pivot   unit.Length
	Scatter unit.Angle      // standard deviation of a stroke's direction
	Aim     unit.Angle      // constant aim bias, positive to the right
	Errors  [setUps]float64 // set-up errors, in their standard deviations
	Front   float64         // the logarithm of the front hand's gain

	// Effects that the model does not include. Draw leaves them at 0.
	Drift unit.Angle // change of the aim bias from each stroke to the next
	Tails float64    // share of strokes with three times the scatter
	Wrong float64    // share of strokes recorded wrongly, in addition to the model's
}

// Draw returns a tester drawn at random from the priors, whose felt shares are his
// real ones.
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
	path, err := t.path(s, u)
	if err != nil {
		return 0, err
	}
	x, err := crossing(line)(path)
	return unit.Length(x), err
}

// path returns the path of the tester's ball without scatter.
func (t Tester) path(s shot.Shot, u SetUp) (*motion.Path, error) {
	s = t.Real(s, u)
	s.AimOff += t.Aim
	path := new(motion.Path)
	return path, s.Send(path)
}

// Real returns the shot that the tester plays, on average and without the aim bias,
// when he intends s: with his cue's pivot length, the set-up errors and what his hands
// really do.
func (t Tester) Real(s shot.Shot, u SetUp) shot.Shot {
	s.Cue.Pivot = t.Pivot
	for d, z := range t.Errors {
		s = u.off(s, d, z)
	}
	s.Hands = s.Hands.Moved(math.Exp(t.Front))
	return s
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

// OnFilm plays a shot with scatter and returns it with what a film of it shows. Only
// Launch, At and Speed of f are replaced. The film's errors are drawn from Cov.
func (t Tester) OnFilm(s shot.Shot, u SetUp, f Film, r *rand.Rand) (Stroke, error) {
	root, ok := stat.Cholesky(f.Cov)
	if !ok {
		return Stroke{}, ErrFilm
	}
	stray := float64(t.stray(r))
	path, err := t.path(s, u)
	if err != nil {
		return Stroke{}, err
	}
	start, _ := path.At(0)
	noise := make([]float64, len(f.Cov))
	for i := range noise {
		noise[i] = r.NormFloat64()
	}
	noise = root.Apply(noise)
	f.Launch = unit.Angle(float64(motion.Bearing(start.Vel)) + stray + noise[0])
	f.At = make([]unit.Length, len(f.Lines))
	for i, line := range f.Lines {
		x, err := crossing(line)(path)
		if err != nil {
			return Stroke{}, err
		}
		f.At[i] = unit.Length(x + float64(line)*stray + noise[1+i])
	}
	f.Speed = unit.Speed(start.Vel.Norm() + noise[len(noise)-1])
	if t.errs(r) { // the film is of another stroke
		f.Launch = 20 * unit.Degree * unit.Angle(r.Float64()-0.5)
		for i, line := range f.Lines {
			f.At[i] = line * unit.Length(f.Launch)
		}
	}
	return Stroke{Shot: s, Seen: f}, nil
}
