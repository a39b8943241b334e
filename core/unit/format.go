package unit

import (
	"math"
	"strconv"
)

// Exact writes an SI value in the named unit of its kind with the fewest
// digits that read back to the same float64. About one float64 in ten can't
// be hit from inches or mph: those are written in SI, which always can.
func Exact(v float64, k Kind, name string) string {
	u, ok := k.Find(name)
	if ok {
		for digits := 1; digits <= 17; digits++ {
			text := strconv.FormatFloat(v/u.SI, 'e', digits-1, 64)
			if n, err := strconv.ParseFloat(text, 64); err == nil && n*u.SI == v {
				return shortest(n) + u.Name
			}
		}
	}
	return shortest(v) + k.Units()[0].Name
}

// shortest writes a number in full where people would, else with an exponent.
func shortest(v float64) string {
	if a := math.Abs(v); a != 0 && (a < 1e-6 || a >= 1e9) {
		return strconv.FormatFloat(v, 'e', -1, 64)
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// Round writes an SI value in the named unit to so many decimals, for people
// to read; the unit itself is left to the caller's layout. Minus zero is
// written as zero, and the minus sign is the typographic one.
func Round(v float64, k Kind, name string, decimals int) string {
	u, ok := k.Find(name)
	if !ok {
		u = k.Units()[0]
	}
	scale := math.Pow(10, float64(decimals))
	n := math.Round(v/u.SI*scale) / scale
	if n < 0 {
		return "−" + strconv.FormatFloat(-n, 'f', decimals, 64)
	}
	return strconv.FormatFloat(math.Abs(n), 'f', decimals, 64)
}
