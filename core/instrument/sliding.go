package instrument

import (
	"errors"
	"math"

	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// Errors of readings of a sliding ball.
var (
	ErrDraw     = errors.New("this takes backspin: time a draw shot")
	ErrNoSlip   = errors.New("a ball that rolls at once does not slide: play a stun shot")
	ErrFriction = errors.New("no cloth slides like that: check the distance, its unit and the speed")
)

// A Slide is a level hit whose sliding is seen to change on the cloth.
type Slide struct {
	Speed   unit.Speed  // as the tip lets go
	Topspin float64     // Rω/v as the tip lets go, below 1; 0 a stun hit
	Dies    bool        // Length is to where the backspin is gone, as a stop shot shows; else to where rolling begins
	Length  unit.Length // of the ball's centre, from rest
}

// form returns f in μ_s = (v²/(g L)) f. Rolling begins after (2/7) w v/(μ_s g),
// with w = 1 − topspin, at the length for which f = (2w/7)(1 − w/7). Backspin b is
// gone after (2/5) b v/(μ_s g), which makes f = (2b/5)(1 − b/5). f is 0 or less if
// there is no such place.
func (s *Slide) form() float64 {
	if s.Dies {
		return -2 * s.Topspin / 5 * (1 + s.Topspin/5)
	}
	w := 1 - s.Topspin
	return 2 * w / 7 * (1 - w/7)
}

// check returns why there is no such hit, or nil.
func (s *Slide) check() error {
	switch {
	case !(s.Length > 0 && s.Length <= longest):
		return ErrLength
	case !(math.Abs(s.Topspin) <= 1.5):
		return ErrTopspin
	case s.form() > 0:
		return nil
	case s.Dies:
		return ErrDraw
	}
	return ErrNoSlip
}

// friction returns μ_s for a launch speed.
func (s *Slide) friction(v float64) float64 {
	return v * v / (unit.Gravity * float64(s.Length)) * s.form()
}

// Every cloth's sliding friction is between these.
const (
	slickest = 0.02
	grippest = 1.0
)

func checkFriction(mu float64) (float64, error) {
	if !(mu >= slickest && mu <= grippest) {
		return 0, ErrFriction
	}
	return mu, nil
}

// Friction returns the cloth's coefficient of sliding friction. Errors: ErrLength,
// ErrTooFast, ErrTopspin, ErrDraw, ErrNoSlip, ErrFriction.
func (s *Slide) Friction() (float64, error) {
	if err := s.check(); err != nil {
		return 0, err
	}
	if !(s.Speed > 0 && s.Speed <= fastest) {
		return 0, ErrTooFast
	}
	return checkFriction(s.friction(float64(s.Speed)))
}

// agreed returns the sliding friction that agrees with the speed of runs read
// with it. Every round takes off two thirds of the error, or more.
func (s *Slide) agreed(runs []Run) float64 {
	const rounds, start = 60, 0.2
	mu := start
	for range rounds {
		last := mu
		if mu = s.round(runs, mu); math.Abs(mu-last) <= 1e-14*last {
			break
		}
	}
	return mu
}

func (s *Slide) round(runs []Run, mu float64) float64 {
	return s.friction(1 / slowness(with(runs, func(r *Run) { r.Cloth.Slide = mu })))
}

// Sliding returns the sliding friction from one such length, for a hit that was
// timed, or others like it: runs. Their speed depends on the friction looked for,
// so the two are worked out in turn until they agree; the sliding friction in the
// runs is not used. radius is the ball's: the same error of the tip spins a
// smaller ball more. Errors: those of Speed and of Friction.
func Sliding(runs []Run, s Slide, radius unit.Length) (stat.Estimate[float64], error) {
	if len(runs) == 0 {
		return stat.Estimate[float64]{}, ErrNone
	}
	if err := s.check(); err != nil {
		return stat.Estimate[float64]{}, err
	}
	for i := range runs {
		if err := runs[i].check(); err != nil {
			return stat.Estimate[float64]{}, err
		}
	}
	mu, err := checkFriction(s.agreed(runs))
	if err != nil {
		return stat.Estimate[float64]{}, err
	}
	runs = with(runs, func(r *Run) { r.Cloth.Slide = mu })
	// An error of the speed comes back through the friction that the speed was
	// read with: a share of it, then a share of that, and so on. The geometric
	// series sums them.
	const step = 1e-4
	back := (s.round(runs, mu*(1+step))/mu - 1) / step
	perSlowness := -2 / ((1 - back) * slowness(runs)) // of ln μ
	readings := make([]reading, len(runs))
	for i := range runs {
		if _, err := runs[i].Speed(); err != nil {
			return stat.Estimate[float64]{}, err
		}
		v, press := runs[i].solve()
		readings[i] = reading{math.Log(mu) + perSlowness*(1/v-slowness(runs)), math.Abs(perSlowness) * press}
	}
	seen := rollSeen
	if s.Dies {
		seen = diesSeen
	}
	logs := pool(readings,
		func(off float64) float64 { return math.Log(s.agreed(with(runs, tapeOff(off)))) },
		func(off float64) float64 { return math.Log(s.agreed(with(runs, rollOff(off)))) },
		func(off float64) float64 {
			moved := s
			moved.Length = max(0, moved.Length+unit.Length(off)*seen)
			return math.Log(moved.agreed(runs))
		},
		func(off float64) float64 {
			moved := s
			moved.Topspin += spinOff(off, radius)
			return math.Log(max(0, moved.agreed(with(runs, tipOff(off, radius)))))
		})
	return stat.Transform(logs, func(log float64) float64 {
		return min(max(math.Exp(log), slickest), grippest)
	}), nil
}
