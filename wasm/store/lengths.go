package store

import (
	"errors"
	"strconv"
	"strings"

	"pivotbench/core/unit"
)

// ReadLengths reads a list of sideways positions, such as "-1 31/32, -1 7/8" or
// "-1.9 2.1 cm". Numbers without a unit are in the given units. Commas, semicolons, line
// breaks and spaces separate the positions, but a space between a whole number and a
// fraction, or between a number and its unit, does not.
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
		return nil, errors.New("type where the ball's centre crossed the line, such as -1 7/8, or several such as -1 7/8, -2")
	}
	return out, nil
}

// lengthWords splits a list of lengths into the text of each length.
func lengthWords(text string) []string {
	var out []string
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == '\n' }) {
		joined := false // whether the next word may continue the last length
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
			joined = bare == word // a comma ends the length
		}
	}
	return out
}

// isWhole reports whether a text is a whole number.
func isWhole(text string) bool {
	_, err := strconv.Atoi(strings.ReplaceAll(text, "−", "-"))
	return err == nil
}
