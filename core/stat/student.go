package stat

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// StudentQuantile returns the p quantile of Student's t distribution with the
// given degrees of freedom. p is at least one half.
//
// Source: Student, Biometrika 6 (1908) 1; Abramowitz and Stegun, Handbook of
// Mathematical Functions, 26.7.1.
func StudentQuantile(freedom, p float64) float64 {
	x := mathext.InvRegIncBeta(freedom/2, 0.5, 2*(1-p))
	return math.Sqrt(freedom * (1 - x) / x)
}

// StudentReach returns how many standard errors a central interval goes to either
// side of a mean to hold the truth with the given probability, when the standard
// error is known with so many degrees of freedom. It is Reach for a standard
// deviation that is itself an estimate.
func StudentReach(freedom, holds float64) float64 { return StudentQuantile(freedom, (1+holds)/2) }

// Spread returns the mean of some values, and the sum of the squares of their
// deviations from it.
func Spread(values []float64) (mean, squares float64) {
	for _, v := range values {
		mean += v / float64(len(values))
	}
	for _, v := range values {
		squares += (v - mean) * (v - mean)
	}
	return mean, squares
}
