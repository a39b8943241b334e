package phrase

import "strings"

// Range returns a range of two values, with their unit once if it is the same, as in 1 to
// 2 in, or one value if both read alike.
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
