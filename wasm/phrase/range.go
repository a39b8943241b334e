package phrase

import "strings"

// Range is a range of values that are written with the same unit, 1 to 2 in, or
// one value where both ends read alike.
func Range(from, to string) string {
	if from == to {
		return to
	}
	number, u, _ := strings.Cut(from, " ")
	if u != "" && strings.HasSuffix(to, " "+u) {
		from = number
	}
	return from + " to " + to
}
