package unit

import (
	"math"
	"slices"
	"strconv"
)

// brief is as many digits as a person types: a value that takes more in one
// unit was most likely given in another.
const brief = 6

// Exact writes an SI value so that it reads back to the same float64, with the
// fewest digits that do: in the named unit of its kind, or in another of its
// units if only that takes few digits, as 30.5 cm does in centimetres though
// not in inches. About one float64 in ten can't be hit from inches or mph at
// all: those are written in SI, which always can.
func Exact(v float64, k Kind, name string) string {
	named, ok := k.Find(name)
	if ok {
		if text, ok := in(v, named, brief); ok {
			return text
		}
	}
	short := ""
	units := k.Units()
	for i, u := range units {
		if slices.ContainsFunc(units[:i], func(other Unit) bool { return other.SI == u.SI }) {
			continue // another name of the same unit
		}
		if text, ok := in(v, u, brief); ok && (short == "" || len(text) < len(short)) {
			short = text
		}
	}
	if short != "" {
		return short
	}
	if ok {
		if text, ok := in(v, named, all); ok {
			return text
		}
	}
	return shortest(v) + units[0].Name
}

const all = 17 // digits, which tell any two float64s apart

// in writes a value in a unit with the fewest digits that read back to it; ok
// is false where more than so many would be needed.
func in(v float64, u Unit, most int) (text string, ok bool) {
	for digits := 1; digits <= most; digits++ {
		n, err := strconv.ParseFloat(strconv.FormatFloat(v/u.SI, 'e', digits-1, 64), 64)
		if err == nil && n*u.SI == v {
			return shortest(n) + u.Name, true
		}
	}
	return "", false
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
// written as zero, and the minus sign is the typographic one. A value without
// end is written as infinity.
func Round(v float64, k Kind, name string, decimals int) string {
	u, ok := k.Find(name)
	if !ok {
		u = k.Units()[0]
	}
	switch {
	case math.IsInf(v, 1):
		return "∞"
	case math.IsInf(v, -1):
		return "−∞"
	}
	scale := math.Pow(10, float64(decimals))
	n := math.Round(v/u.SI*scale) / scale
	if n < 0 {
		return "−" + strconv.FormatFloat(-n, 'f', decimals, 64)
	}
	return strconv.FormatFloat(math.Abs(n), 'f', decimals, 64)
}
