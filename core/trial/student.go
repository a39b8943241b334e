package trial

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// The incomplete beta function is the library's. Its statistics packages, which
// have all of this ready, bring the whole of its linear algebra into a program
// that a phone has to download.
//
// Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.1.

// studentTail is the chance that a Student-t value with so many degrees of
// freedom is above t, which is not negative.
func studentTail(freedom, t float64) float64 {
	return mathext.RegIncBeta(freedom/2, 0.5, freedom/(freedom+t*t)) / 2
}

// studentQuantile is the value with a chance of p, at least a half, to be below
// it.
func studentQuantile(freedom, p float64) float64 {
	x := mathext.InvRegIncBeta(freedom/2, 0.5, 2*(1-p))
	return math.Sqrt(freedom * (1 - x) / x)
}

// meanDeviation is the mean of at least two values and their standard
// deviation, of the sample.
func meanDeviation(values []float64) (mean, sd float64) {
	n := float64(len(values))
	for _, v := range values {
		mean += v / n
	}
	for _, v := range values {
		sd += (v - mean) * (v - mean)
	}
	return mean, math.Sqrt(sd / (n - 1))
}
