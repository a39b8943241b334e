package store

import (
	"math"
	"strconv"
	"strings"

	"pivotbench/core/cues"
)

// formatShared returns the parts of an error that are shared, as shares of the whole
// error: one number for each cause.
func formatShared(e cues.EndMass) string {
	if len(e.Shared) != 1 || e.Spread == 0 {
		return ""
	}
	var out []string
	for _, v := range e.Shared[0].By {
		out = append(out, strconv.FormatFloat(math.Round(v/e.Spread*1000)/1000+0, 'f', -1, 64))
	}
	return strings.Join(out, " ")
}

// parseShared reads the text of formatShared. ok is false for any other text, and when
// the parts are more than the whole.
func parseShared(text string) (by [cues.Causes]float64, ok bool) {
	words := strings.Fields(text)
	if len(words) != len(by) {
		return by, false
	}
	square := 0.0
	for i, word := range words {
		v, err := strconv.ParseFloat(word, 64)
		if err != nil {
			return by, false
		}
		by[i] = v
		square += v * v
	}
	const rounding = 0.01
	return by, square <= 1+rounding
}

// SharedParts returns the parts of the record's error that other measurements have too.
// spread is the standard deviation of the logarithm of its end mass. It returns nil when
// the record does not know them, for example when the pivot length was typed in.
func (c *CueRecord) SharedParts(spread float64) []cues.Share {
	by, ok := parseShared(c.Shared)
	if !ok {
		return nil
	}
	for d := range by {
		by[d] *= spread
	}
	return []cues.Share{{Sitting: c.Sitting, By: by}}
}

// sharedFaults describes what is wrong with the shared parts. None are needed.
func (c *CueRecord) sharedFaults() []string {
	if _, ok := parseShared(c.Shared); !ok && c.Shared != "" {
		return []string{"shared “" + clip(c.Shared) + "”, allowed: " + strconv.Itoa(cues.Causes) + " numbers whose squares add up to 1 at most"}
	}
	return nil
}
