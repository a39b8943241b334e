package stat

import "math"

// Normal returns Φ(z), the distribution function of the standard Normal
// distribution.
func Normal(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// NormalDensity returns the density of the standard Normal distribution at z.
func NormalDensity(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }

// NormalQuantile returns the z with Φ(z) = p. It limits p to 1e-12 away from 0 and
// 1, so z stays within about ±7.
func NormalQuantile(p float64) float64 {
	const edge = 1e-12
	return math.Sqrt2 * math.Erfinv(2*min(max(p, edge), 1-edge)-1)
}

// Reach returns how many standard deviations a central interval of a Normal
// distribution goes to either side to hold the given probability.
func Reach(holds float64) float64 { return NormalQuantile((1 + holds) / 2) }

// Reach90 is Reach(0.9): 1.645 to three decimals.
var Reach90 = Reach(0.9)
