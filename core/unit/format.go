package unit

import (
	"math"
	"slices"
	"strconv"
)

// brief is the number of digits that a person types. A value that needs more in one unit
// was most likely given in another.
const brief = 6

// Exact writes an SI value so that it reads back to the same float64, with as few digits
// as possible. It uses the named unit, or another of the kind's units if only that needs
// few digits, as 30.5 cm does in centimetres but not in inches. About one float64 in ten
// has no exact text in inches or mph. It is written in SI, which always has one.
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

const all = 17 // enough digits to distinguish any two float64s

// in writes a value in a unit with as few digits as read back to it. ok is false if that
// takes more than most.
func in(v float64, u Unit, most int) (text string, ok bool) {
	for digits := 1; digits <= most; digits++ {
		n, err := strconv.ParseFloat(strconv.FormatFloat(v/u.SI, 'e', digits-1, 64), 64)
		if err == nil && n*u.SI == v {
			return shortest(n) + u.Name, true
		}
	}
	return "", false
}

// shortest writes a number in full between 1e-6 and 1e9, and otherwise with an exponent.
func shortest(v float64) string {
	if a := math.Abs(v); a != 0 && (a < 1e-6 || a >= 1e9) {
		return strconv.FormatFloat(v, 'e', -1, 64)
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// Round writes an SI value in the named unit with so many decimals, for people to read.
// The unit itself is left to the caller. It writes minus zero as zero, uses the
// typographic minus sign, and writes an infinite value as infinity.
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
