package gauge

import (
	"errors"
	"math"
	"slices"

	"pivotbench/core/unit"
)

// What keeps a sliding ball from telling its cloth.
var (
	ErrDraw     = errors.New("for draw that dies, backspin is needed: more than nothing, up to 1.5 times the spin of a rolling ball")
	ErrNoSlip   = errors.New("a ball that rolls at once does not slide: play a stun hit")
	ErrFriction = errors.New("no cloth slides like that, at 0.02 to 1: check the length, its unit and the speed")
)

// A Slide is a level hit whose way on the cloth is seen to change.
type Slide struct {
	Speed   unit.Speed  // as the tip lets go
	Topspin float64     // Rω/v as the tip lets go, below 1; 0 a stun hit
	Dies    bool        // Length is to where backspin is gone, as a stop shot shows; else to where rolling begins
	Length  unit.Length // of the ball's centre, from rest
}

// form is f in μ_s = (v²/(g L)) f. Rolling begins after (2/7)w v/(μ_s g), with
// w = 1 − topspin, at a length that makes f = (2w/7)(1 − w/7). Backspin b is
// gone after (2/5) b v/(μ_s g): f = (2b/5)(1 − b/5).
//
// per is df/d(topspin) as a share of f.
func (s *Slide) form() (f, per float64, err error) {
	part, by := 1-s.Topspin, 7.0
	if s.Dies {
		part, by = -s.Topspin, 5
	}
	switch {
	case !(math.Abs(s.Topspin) <= 1.5):
		return 0, 0, ErrTopspin
	case !(part > 0) && s.Dies:
		return 0, 0, ErrDraw
	case !(part > 0):
		return 0, 0, ErrNoSlip
	}
	return 2 * part / by * (1 - part/by), -(1/part - 1/(by-part)), nil
}

// Friction is the cloth's coefficient of sliding friction. Errors: ErrLength,
// ErrTooFast, ErrTopspin, ErrDraw, ErrNoSlip, ErrFriction.
func (s *Slide) Friction() (float64, error) {
	if !(s.Length > 0 && s.Length <= longest) {
		return 0, ErrLength
	}
	if !(s.Speed > 0 && s.Speed <= fastest) {
		return 0, ErrTooFast
	}
	f, _, err := s.form()
	if err != nil {
		return 0, err
	}
	mu := float64(s.Speed*s.Speed) / (unit.Gravity * float64(s.Length)) * f
	if !(mu >= 0.02 && mu <= 1) {
		return 0, ErrFriction
	}
	return mu, nil
}

// Sliding is what one such length comes to when the hit, or others like it, were
// timed: runs. Their speed depends on the friction looked for, so the two are
// worked out in turn until they agree; the cloth's own in the runs counts for
// nothing. radius is the ball's: on a smaller one a tip that is a little off
// spins it more. Errors: those of Speed and of Friction.
func Sliding(runs []Run, s Slide, radius unit.Length) (Estimate[float64], error) {
	if len(runs) == 0 {
		return Estimate[float64]{}, ErrNone
	}
	runs = slices.Clone(runs)
	next := func(mu float64) (float64, error) {
		slowness := 0.0
		for i := range runs {
			runs[i].Cloth.Slide = mu
			v, err := runs[i].Speed()
			if err != nil {
				return 0, err
			}
			slowness += 1 / float64(v) / float64(len(runs))
		}
		s.Speed = unit.Speed(1 / slowness)
		return s.Friction()
	}
	const rounds, start = 60, 0.2 // a round takes off two thirds of what is wrong, or more
	mu := start
	for range rounds {
		var err error
		if mu, err = next(mu); err != nil {
			return Estimate[float64]{}, err
		}
	}
	speed, err := Speed(runs)
	// An error of the speed comes back through the friction it was read with:
	// a share of it, then a share of that, and so on.
	const step = 1e-4
	moved, errMoved := next(mu * (1 + step))
	if err := errors.Join(err, errMoved); err != nil {
		return Estimate[float64]{}, err
	}
	back := (moved/mu - 1) / step

	seen := rollSeen
	if s.Dies {
		seen = diesSeen
	}
	// A tip that is higher by a share of the radius adds 5/2 of it to the topspin.
	_, per, _ := s.form()
	tip := 2.5 * per * float64(tipSeen/radius)
	sd := math.Hypot(float64(seen/s.Length), tip)
	return ratios[float64]([]reading{{math.Log(mu), sd / (1 - back)}}, 2*share(speed)/(1-back)), nil
}
