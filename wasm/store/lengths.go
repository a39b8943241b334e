package store

import (
	"errors"
	"strconv"
	"strings"

	"pivotbench/core/unit"
)

// ReadLengths reads a list of sideways positions, as in "-1 31/32, -1 7/8" or
// "-1.9 2.1 cm". Bare numbers are in the given unit. Commas, semicolons and lines
// part them, and without those spaces do; a fraction belongs to the whole number
// before it, and a unit to the number before it.
func ReadLengths(text, units string) ([]unit.Length, error) {
	var out []unit.Length
	for i, word := range lengthWords(text) {
		v, err := unit.Parse(word, unit.LengthKind, units)
		if err != nil {
			return nil, errors.New("number " + strconv.Itoa(i+1) + ": " + err.Error())
		}
		out = append(out, unit.Length(v))
	}
	if out == nil {
		return nil, errors.New("nothing typed: give where the ball's centre crossed the line, as in -1 7/8, or -1 7/8, -2 for several")
	}
	return out, nil
}

// lengthWords parts a list of lengths.
func lengthWords(text string) []string {
	var out []string
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == '\n' }) {
		joined := false // to what stands before in the same part
		for _, word := range strings.Fields(strings.ReplaceAll(part, ", ", " , ")) {
			bare := strings.TrimSuffix(word, ",")
			_, isUnit := unit.LengthKind.Find(bare)
			switch {
			case bare == "":
				joined = false
				continue
			case joined && isUnit:
				out[len(out)-1] += bare
			case joined && strings.Contains(bare, "/") && isWhole(out[len(out)-1]):
				out[len(out)-1] += " " + bare
			default:
				out = append(out, bare)
			}
			joined = bare == word // not past a comma
		}
	}
	return out
}

// isWhole reports whether a text is a whole number.
func isWhole(text string) bool {
	_, err := strconv.Atoi(strings.ReplaceAll(text, "−", "-"))
	return err == nil
}
