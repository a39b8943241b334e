// Package instrument reads speed, cloth, elevation, tip and ball with what a
// player has in the pocket: a stopwatch, a tape, a ruler, a phone laid on the cue.
// Each instrument inverts the model of motion or of contact, and returns an
// estimate, or an error that says what is wrong with the reading.
package instrument

import (
	"math"

	"pivotbench/core/stat"
)

// prior is how many readings the stated scatter of an instrument counts for, as if
// they had been seen to scatter by that much. With it one reading has an interval,
// and many readings outvote a stated scatter that is not this user's.
const prior = 20

// A reading is one measurement on the scale on which its errors are Normal, with
// the standard deviation that its instrument states.
type reading struct{ at, sd float64 }

// A given is something that an instrument takes as known and that all its
// readings share, such as the tape, the cloth or the player's tip height. It
// returns the mean of the readings if that is off by a number of standard
// deviations: not a number if there is no such mean.
type given func(off float64) float64

// steady is a given that moves the mean in proportion.
func steady(mean, sd float64) given {
	return func(off float64) float64 { return mean + off*sd }
}

// pool returns the estimate of one quantity from readings of it, on their scale.
// The scatter comes from the readings and from what they state together, so the
// interval is Student's with prior + n − 1 degrees of freedom. A given does not
// average out: each is moved to both ends of its own 90 % interval, and what that
// does to the mean is added in quadrature, to either side by itself.
//
// Source: Gelman and others, Bayesian Data Analysis, chapter 3, the Normal
// with conjugate prior (scaled inverse chi-squared), flat in the mean.
func pool(readings []reading, givens ...given) stat.Estimate[float64] {
	n := float64(len(readings))
	values, stated := make([]float64, len(readings)), 0.0
	for i, r := range readings {
		values[i] = r.at
		stated += r.sd * r.sd / n
	}
	mean, squares := stat.Spread(values)
	freedom := prior + n - 1
	sd := math.Sqrt((prior*stated + squares) / freedom)
	half := stat.StudentReach(freedom, 0.9) * sd / math.Sqrt(n)
	below, above := half, half
	for _, g := range givens {
		less, more := g(-stat.Reach90), g(stat.Reach90)
		below = math.Hypot(below, max(0, mean-min(less, more)))
		above = math.Hypot(above, max(0, max(less, more)-mean))
	}
	return stat.Estimate[float64]{Median: mean, Interval: stat.Interval[float64]{From: mean - below, To: mean + above}}
}

// of gives a plain SI value its quantity, for stat.Transform.
func of[T ~float64](si float64) T { return T(si) }
