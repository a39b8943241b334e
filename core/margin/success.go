package margin

import (
	"math"

	"pivotbench/core/contact"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Goal is what a stroke is for. It is told the shot as it was tried and the
// path the ball took.
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

// OnTarget is the goal of arriving no further than so much to either side.
func OnTarget(within unit.Length) Goal {
	return func(tried *shot.Shot, p *motion.Path) bool {
		x, err := arrival(tried, p)
		return err == nil && math.Abs(x) <= float64(within)
	}
}

// arrival is the sideways offset at the target.
func arrival(s *shot.Shot, p *motion.Path) (float64, error) {
	when, err := p.AtCircle(s.Dist)
	if err != nil {
		return 0, err
	}
	there, _ := p.At(when)
	return there.Pos.X, nil
}

// A Rate is a share of strokes that come off, with a guide to its standard error:
// see shifts.
type Rate struct {
	Share, Err float64
	N          int
}

// Success is how often a shot comes off under scatter. A stroke that miscues
// does not.
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
