package cues

import (
	"math"

	"pivotbench/core/stat"
)

// Causes is the number of errors that the strokes of a sitting share: those of the
// set-up (elevation, bridge, offset, speed, sliding friction), and the aim bias.
const Causes = 6

// A Share is the part of an EndMass's error that comes from the errors of one sitting.
type Share struct {
	Sitting string // names the sitting; empty: a sitting of its own
	// By is the error of EndMass.Log that one standard deviation of each cause
	// makes, with its sign.
	By [Causes]float64
}

// Habit is the correlation of the same cause in two sittings. A player's elevation is
// off by much the same in each, and so is the tape, but some of it is new every time.
// Common practice, no source.
const Habit = 0.5

// covariance returns the covariance of the errors of two measurements. The cues of one
// sitting share its errors, so they have the most in common.
func covariance(a, b EndMass) float64 {
	sum := 0.0
	for i := range a.Shared {
		for j := range b.Shared {
			one, two := &a.Shared[i], &b.Shared[j]
			dot := 0.0
			for d := range one.By {
				dot += one.By[d] * two.By[d]
			}
			if one.Sitting == "" || one.Sitting != two.Sitting {
				dot *= Habit
			}
			sum += dot
		}
	}
	// Errors that are known to a few digits only may seem to have more in common
	// than they are large.
	most := a.Spread * b.Spread
	return min(max(sum, -most), most)
}

// correlation returns the correlation of the errors of two measurements.
func correlation(a, b EndMass) float64 {
	if a.Spread == 0 || b.Spread == 0 {
		return 0
	}
	return covariance(a, b) / (a.Spread * b.Spread)
}

// apart returns the standard deviation of the difference of two measurements. What they
// share cancels.
func apart(a, b EndMass) float64 {
	return math.Sqrt(max(a.Spread*a.Spread+b.Spread*b.Spread-2*covariance(a, b), leastSpread*leastSpread))
}

// Less returns the probability that one cue squirts less than another.
func Less(a, b EndMass) float64 { return stat.Normal((b.Log - a.Log) / apart(a, b)) }

// Ratio returns the end mass of one cue divided by that of another.
func Ratio(a, b EndMass) stat.Estimate[float64] {
	return stat.Transform(stat.NormalEstimate(a.Log-b.Log, apart(a, b)), math.Exp)
}

// scaled returns shares of an error that counts for a part of another.
func scaled(shares []Share, by float64) []Share {
	out := make([]Share, len(shares))
	for i, s := range shares {
		for d := range s.By {
			s.By[d] *= by
		}
		out[i] = s
	}
	return out
}
