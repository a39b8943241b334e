// Package gauge reads speed, cloth, elevation, tip and ball off what a player
// has in the pocket: a stopwatch, a tape, a ruler, a phone laid on the cue.
// Each instrument turns the model of motion or of contact round, and gives its
// answer with an interval, or says in words why there is none.
package gauge

import (
	"math"

	"pivotbench/core/stat"
)

// An Estimate is what readings come to: a value, and the interval that holds
// the truth nine times in ten.
type Estimate[T ~float64] struct {
	Value, From, To T
	N               int // readings it is made of
}

// confidence is that of every interval here.
const confidence = 0.9

// prior is how many readings the scatter that an instrument states counts for,
// as if it had been seen in them before: one reading has an interval, and many
// readings outvote a stated scatter that is not this user's.
const prior = 10

// A reading is one measuring on the scale on which its errors are Normal, with
// the standard deviation that its instrument states.
type reading struct{ at, sd float64 }

// pool is the mean of readings of one thing and half the width of its interval.
// The scatter is that of the readings and the one stated together, so the
// interval is Student's with prior + n − 1 degrees of freedom. An error that
// all readings share, such as that of the one tape, does not average out: its
// standard deviation is added at the end.
//
// Source: Gelman and others, Bayesian Data Analysis, chapter 3, the Normal
// with conjugate prior (scaled inverse chi-squared), flat in the mean.
func pool(readings []reading, shared float64) (mean, half float64) {
	n := float64(len(readings))
	values, stated := make([]float64, len(readings)), 0.0
	for i, r := range readings {
		values[i] = r.at
		stated += r.sd * r.sd / n
	}
	mean, squares := stat.Spread(values)
	freedom := prior + n - 1
	sd := math.Sqrt((prior*stated + squares) / freedom)
	return mean, math.Hypot(stat.StudentQuantile(freedom, (1+confidence)/2)*sd/math.Sqrt(n), stat.Reach90*shared)
}

// ratios pools readings of something positive, whose errors are in proportion:
// at is the logarithm, and sd and shared are shares.
func ratios[T ~float64](readings []reading, shared float64) Estimate[T] {
	mean, half := pool(readings, shared)
	return Estimate[T]{T(math.Exp(mean)), T(math.Exp(mean - half)), T(math.Exp(mean + half)), len(readings)}
}

// share is the standard deviation of an estimate as a share of its value.
func share[T ~float64](e Estimate[T]) float64 {
	return math.Log(float64(e.To/e.From)) / (2 * stat.Reach90)
}
