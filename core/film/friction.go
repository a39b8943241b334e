package film

import (
	"math"

	"pivotbench/core/stat"
)

// A Friction is what a film of a long roll shows of the cloth. Where it tells too little there is
// an error in place of the estimate.
type Friction struct {
	Slide, Roll       stat.Estimate[float64]
	SlideErr, RollErr error // ErrNoFriction
}

// anyCloth expects a ball that is hit about in its middle and not much raised, on any cloth:
// common practice, no source.
var anyCloth = Expect{Ahead: 1, AheadOff: 0.4, AcrossOff: 0.08, Slide: 0.2, SlideOff: 0.5, Roll: 0.011, RollOff: 0.7,
	Rise: 0.03, RiseOff: 0.03, Rebound: 0.5}

// told is the greatest standard deviation of a friction, as a share, with which the film tells
// it: what it is taken to be off by where nobody has measured it (package sitting).
const told = 0.15

// Friction measures the cloth by a ball that is hit in its middle, slides, rolls, and nearly
// stops: how long it slides tells the sliding friction, and how it slows down the rolling one.
// Errors: ErrFew, ErrResidual, ErrSlowMotion.
func (k *Stroke) Friction() (f Friction, err error) {
	best, err := k.paced(anyCloth)
	switch {
	case err != nil:
		return f, err
	case best.SpeedErr != nil:
		return f, best.SpeedErr
	case best.Rms > worstRms:
		return f, ErrResidual
	}
	of := func(i int) stat.Estimate[float64] {
		return stat.Transform(stat.NormalEstimate(best.p[i], math.Sqrt(best.cov[i][i])), math.Exp)
	}
	f.Slide, f.Roll = of(logSlide), of(logRoll)
	if best.cov[logSlide][logSlide] > told*told {
		f.Slide, f.SlideErr = stat.Estimate[float64]{}, ErrNoFriction
	}
	if best.cov[logRoll][logRoll] > told*told {
		f.Roll, f.RollErr = stat.Estimate[float64]{}, ErrNoFriction
	}
	return f, nil
}
