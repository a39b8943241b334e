package trial

import (
	"math"
	"math/rand/v2"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Tester is an invented player with a cue, whose values the tries are to find.
// It is for testing how well they do.
type Tester struct {
	Pivot   unit.Length
	Scatter unit.Angle // standard deviation of a stroke's aim
	Aim     unit.Angle // constant aim error, positive to the right
	Elev    unit.Angle // error of the elevation that is typed in
}

// Draw returns a tester drawn from the priors.
func Draw(r *rand.Rand) Tester {
	between := func(lo, hi float64) float64 { return lo * math.Pow(hi/lo, r.Float64()) }
	return Tester{
		Pivot:   unit.Length(between(float64(PivotLeast), float64(PivotMost))),
		Scatter: unit.Angle(between(float64(ScatterLeast), float64(ScatterMost))),
		Aim:     AimSpread * unit.Angle(r.NormFloat64()),
		Elev:    ElevSpread * unit.Angle(r.NormFloat64()),
	}
}

// Try plays a shot and records it, as the tester would. The errors are those of
// Add.
func (t Tester) Try(s shot.Shot, r *rand.Rand) (Try, error) {
	try := Try{Shot: s, Outcome: Clean}
	if err := try.check(); err != nil {
		return Try{}, err
	}
	var path motion.Path
	at := s
	at.Cue.Pivot, at.Elevation = t.Pivot, off(s.Elevation, t.Elev)
	x, err := crossing(&at, &path)
	if err != nil {
		return Try{}, err
	}
	dist := float64(s.Gate.Dist)
	x += dist * (math.Tan(float64(t.Aim)) + float64(t.Scatter)*r.NormFloat64())
	half := corridor(s.Gate.Gap, s.Ball.Radius)
	switch {
	case r.Float64() < Misrecorded:
		try.Outcome = Outcome(r.IntN(int(outcomes)))
	case half == 0: // the lanes overlap: the nearer blocker
		try.Outcome = Left
		if x > 0 {
			try.Outcome = Right
		}
	case x < -half:
		try.Outcome = Left
	case x > half:
		try.Outcome = Right
	}
	return try, nil
}
