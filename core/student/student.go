// Package student is Student's t distribution, and the mean and scatter of a
// few values that it is asked about.
//
// The incomplete beta function is the library's. Its statistics packages, which
// have all of this ready, bring the whole of its linear algebra into a program
// that a phone has to download.
//
// Source: Student, Biometrika 6 (1908) 1; Abramowitz and Stegun, Handbook of
// Mathematical Functions, 26.7.1.
package student

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Tail is the chance that a value with so many degrees of freedom is above t,
// which is not negative.
func Tail(freedom, t float64) float64 {
	return mathext.RegIncBeta(freedom/2, 0.5, freedom/(freedom+t*t)) / 2
}

// Quantile is the value with a chance of p, at least a half, to be below it.
func Quantile(freedom, p float64) float64 {
	x := mathext.InvRegIncBeta(freedom/2, 0.5, 2*(1-p))
	return math.Sqrt(freedom * (1 - x) / x)
}

// Spread is the mean of some values, and the sum of the squares of their
// distances from it.
func Spread(values []float64) (mean, squares float64) {
	for _, v := range values {
		mean += v / float64(len(values))
	}
	for _, v := range values {
		squares += (v - mean) * (v - mean)
	}
	return mean, squares
}
