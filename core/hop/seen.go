package hop

import (
	"errors"
	"math"

	"pivotbench/core/contact"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A Sight is what a hop was seen to do.
type Sight int

// The sights.
const (
	Cleared Sight = iota // it cleared the obstacle
	Touched              // it touched the obstacle
	Rose                 // it rose to a height, read off a film
)

// A Seen is a hop that was played, and what was seen.
type Seen struct {
	Shot shot.Shot
	What Sight
	High unit.Length // height of a coin stack at the gate's distance, 0 for the gate's own balls; or how far the centre rose
}

// ErrContradict is the error of hops that no contact time explains.
var ErrContradict = errors.New("they contradict each other; check the speed, the elevation and what you noted, or delete the one you doubt")

const (
	// paceDoubt is the possible error of a hop's speed: 15 %, as for every stroke
	// that was not timed.
	paceDoubt = 0.15
	// riseDoubt is the possible error of a height read off a film, from memory.
	riseDoubt = 6 * unit.Millimetre
)

// Narrow returns the part of an interval of ratios that agrees with hops seen.
// Errors: ErrContradict if there is none, ErrNoTip, and those of hops that can't
// be played.
//
// A ratio stays if every hop could have gone as seen at some speed within 15 % of
// the recorded one. So one doubtful record narrows little, and none can rule out
// what happens at the recorded speed itself.
func Narrow(r stat.Interval[float64], seen []Seen) (stat.Interval[float64], error) {
	if len(seen) == 0 {
		return r, nil
	}
	const n = 33
	grid := Spaced(r, n)
	first, last := -1, -1
	for i, ratio := range grid {
		fits := true
		for j := 0; j < len(seen) && fits; j++ {
			var err error
			if fits, err = seen[j].fits(ratio); err != nil {
				return r, err
			}
		}
		if fits {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	if first < 0 {
		return r, ErrContradict
	}
	// The ends lie half way to the neighbours that do not agree.
	return stat.Interval[float64]{
		From: math.Sqrt(grid[first] * grid[max(0, first-1)]),
		To:   math.Sqrt(grid[last] * grid[min(len(grid)-1, last+1)]),
	}, nil
}

// fits reports whether the hop could have gone as seen at a ratio.
func (s *Seen) fits(ratio float64) (bool, error) {
	p, cue, err := Pressed(&s.Shot, ratio)
	if err != nil {
		return false, err
	}
	if s.What == Rose {
		up := p.Vel.Z * float64(cue)
		rise := max(0, up) * up / (2 * unit.Gravity)
		slow, fast := 1-paceDoubt, 1+paceDoubt
		high := float64(s.High)
		return rise*slow*slow <= high+float64(riseDoubt) && rise*fast*fast >= high-float64(riseDoubt), nil
	}
	var path motion.Path
	for _, pace := range [...]unit.Speed{1 - paceDoubt, 1, 1 + paceDoubt} {
		p.Follow(&s.Shot, cue*pace, &path)
		clears, err := s.clears(&path)
		if err != nil {
			return false, err
		}
		if clears == (s.What == Cleared) {
			return true, nil
		}
	}
	return false, nil
}

// clears reports whether a path clears the obstacle.
func (s *Seen) clears(p *motion.Path) (bool, error) {
	gate, radius := s.Shot.Gate, s.Shot.Ball.Radius
	if s.High == 0 {
		pass, err := contact.Pass(p, gate, radius)
		return pass.Outcome == contact.Clean, err
	}
	if gate.Dist == 0 {
		return false, contact.ErrNoGate
	}
	return over(p, gate.Dist, s.High, radius), nil
}

// over reports whether a ball passes over a thin stack of a height across its
// path: seen from the side, its centre stays a radius away from the top of the
// stack.
func over(p *motion.Path, dist, high, radius unit.Length) bool {
	if _, err := p.AtLine(dist); err != nil {
		return false
	}
	top := vec.V{Y: float64(dist), Z: float64(high - radius)}
	for i := range p.Segments() {
		s := &p.Segments()[i]
		if s.Phase != motion.Fly {
			return false // on the cloth before it
		}
		q := s.DistanceSquared(top, vec.V{Y: 1, Z: 1})
		d := q.Derivative()
		least := min(q.At(0), q.At(float64(s.Length)))
		turns, n := d.Roots(0, float64(s.Length))
		for _, t := range turns[:n] {
			least = min(least, q.At(t))
		}
		if least < float64(radius*radius) {
			return false
		}
		if end := s.From.Pos.Y + s.From.Vel.Y*float64(s.Length); end > float64(dist) {
			return true
		}
	}
	return false
}
