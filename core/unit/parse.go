package unit

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// longest exceeds the length of any quantity. A longer text is refused unread, so that
// junk takes a bounded time.
const longest = 200

// A ParseError says what was read where a quantity was expected, and what is allowed
// there.
type ParseError struct {
	Read string // the text as it was given
	Want string // what it should have been, and what to type
}

func (e *ParseError) Error() string {
	return "“" + e.Read + "” is not " + e.Want
}

// Parse reads a quantity of the given kind, such as "9.5 in", "9 1/2 in", "24cm" or
// "-0.4", and returns it in SI. A number of any kind but Ratio needs its unit. bare, if
// it is not empty, is the unit assumed if none is written: a number field shows its unit
// beside it, a link does not. Anything that is not a finite number is a *ParseError.
func Parse(text string, k Kind, bare string) (float64, error) {
	if len(text) > longest {
		return 0, &ParseError{Read: Clip(text), Want: wants[k]}
	}
	number, name := split(strings.TrimSpace(text))
	if name == "" {
		name = bare
	}
	u, known := k.Find(name)
	v, ok := parseNumber(number)
	if !known || !ok {
		return 0, &ParseError{Read: Clip(text), Want: wants[k]}
	}
	return v * u.SI, nil
}

// split divides a quantity into its number and the unit after it.
func split(text string) (number, name string) {
	end := len(text)
	for i, r := range text {
		digit := r >= '0' && r <= '9'
		exponent := (r == 'e' || r == 'E') && i > 0 && i+1 < len(text) && strings.IndexByte("+-0123456789", text[i+1]) >= 0
		if !digit && !exponent && !strings.ContainsRune("+-−.,/ ", r) {
			end = i
			break
		}
	}
	return strings.TrimSpace(text[:end]), strings.TrimSpace(text[end:])
}

// parseNumber reads a decimal, a fraction, or a whole number and a fraction.
// A comma is a decimal comma.
func parseNumber(text string) (float64, bool) {
	text = strings.ReplaceAll(strings.ReplaceAll(text, "−", "-"), ",", ".")
	fields := strings.Fields(text)
	switch {
	case len(fields) == 1 && strings.Contains(text, "/"):
		return parseFraction(text)
	case len(fields) == 1:
		v, err := strconv.ParseFloat(text, 64)
		return v, err == nil // of the texts that split returns, only an overflow is an error, and none is NaN
	case len(fields) == 2:
		whole, err := strconv.ParseInt(fields[0], 10, 32)
		part, ok := parseFraction(fields[1])
		if err != nil || !ok || part < 0 {
			return 0, false
		}
		return math.Copysign(math.Abs(float64(whole))+part, sign(fields[0])), true
	}
	return 0, false
}

func parseFraction(text string) (float64, bool) {
	above, below, ok := strings.Cut(text, "/")
	n, errN := strconv.ParseInt(above, 10, 32)
	d, errD := strconv.ParseInt(below, 10, 32)
	if !ok || errN != nil || errD != nil || d <= 0 {
		return 0, false
	}
	return float64(n) / float64(d), true
}

// sign returns the sign of a written number; "-0" is negative.
func sign(text string) float64 {
	if strings.HasPrefix(text, "-") {
		return -1
	}
	return 1
}

// wants says what a text of each kind has to be, with examples.
var wants = [...]string{
	Ratio:        "a number: type 0.4 or 40 %",
	LengthKind:   "a length: type 9.5 in, 9 1/2 in or 24 cm",
	AngleKind:    "an angle: type 3 deg or 3°",
	SpeedKind:    "a speed: type 7 mph or 3.1 m/s",
	MassKind:     "a mass: type 540 g or 19 oz",
	SpanKind:     "a time: type 0.61 s or 610 ms",
	SpinRateKind: "a spin rate: type 10 rad/s2",
}

// Clip shortens a text for a message, at a cost that does not depend on its length.
func Clip(text string) string {
	const most = 40
	start := text[:min(len(text), (most+1)*utf8.UTFMax)]
	runes := []rune(strings.ToValidUTF8(start, "�"))
	if len(runes) <= most && len(start) == len(text) {
		return string(runes)
	}
	return string(runes[:min(len(runes), most)]) + "…"
}
