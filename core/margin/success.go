package margin

import (
	"math"

	"pivotbench/core/contact"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Goal reports whether a stroke does what it is for, given the attempted shot
// and the path of the ball.
type Goal func(tried *shot.Shot, p *motion.Path) bool

// Pocketed is the goal of pocketing the object ball.
func Pocketed() Goal {
	var pot shot.Pot
	return func(tried *shot.Shot, p *motion.Path) bool {
		return tried.Sink(p, &pot) == nil && pot.In(tried)
	}
}

// ThroughGate is the goal of passing the blockers clean.
func ThroughGate(tried *shot.Shot, p *motion.Path) bool {
	pass, err := contact.Pass(p, tried.Gate, tried.Ball.Radius)
	return err == nil && pass.Outcome == contact.Clean
}

// OnTarget returns the goal of arriving within a distance to either side.
func OnTarget(within unit.Length) Goal {
	return func(tried *shot.Shot, p *motion.Path) bool {
		x, err := arrival(tried, p)
		return err == nil && math.Abs(x) <= float64(within)
	}
}

// arrival returns the sideways offset at the target.
func arrival(s *shot.Shot, p *motion.Path) (float64, error) {
	when, err := p.AtCircle(s.Dist)
	if err != nil {
		return 0, err
	}
	there, _ := p.At(when)
	return there.Pos.X, nil
}

// A Rate is the share of strokes that succeed, with an estimate of its standard error
// (see shifts).
type Rate struct {
	Share, Err float64
	N          int
}

// Success returns how often a shot succeeds under scatter. A miscue counts as a failure.
func (s *Sampler) Success(meant *shot.Shot, sc Scatter, goal Goal) Rate {
	var path motion.Path
	var tried shot.Shot
	var sum, squares float64
	each := len(s.points) / shifts
	for shift := range shifts {
		good := 0
		for i := range each {
			tried = s.stroke(shift*each+i, meant, &sc)
			if tried.Send(&path) == nil && goal(&tried, &path) {
				good++
			}
		}
		share := float64(good) / float64(each)
		sum += share
		squares += share * share
	}
	mean := sum / shifts
	variance := max(0, squares/shifts-mean*mean) / (shifts - 1)
	return Rate{Share: mean, Err: math.Sqrt(variance), N: len(s.points)}
}
