package stat

import "math"

// Halton returns n points of the unit cube in as many dimensions as there are
// bases, which must be different primes. The points fill it more evenly than
// chance would, and are the same every time. A shift moves all of them by the same
// amount, wrapped round: sets with different shifts show how good an average over
// one set is.
//
// Source: Halton, Numer. Math. 2 (1960) 84; Cranley and Patterson, SIAM J. Numer.
// Anal. 13 (1976) 904. The shifts are points of a Kronecker sequence on the square
// roots of the primes.
func Halton(n int, bases []int, shift int) [][]float64 {
	points := make([][]float64, n)
	for i := range points {
		points[i] = make([]float64, len(bases))
		for d, base := range bases {
			u := radicalInverse(i+1, base) + math.Sqrt(float64(base))*float64(shift)
			points[i][d] = u - math.Floor(u)
		}
	}
	return points
}

// radicalInverse mirrors the digits of i about the point: 6 = 110 in base 2 is
// 0.011.
func radicalInverse(i, base int) float64 {
	out, place := 0.0, 1/float64(base)
	for ; i > 0; i /= base {
		out += float64(i%base) * place
		place /= float64(base)
	}
	return out
}
