package cues

import (
	"math"

	"pivotbench/core/stat"
)

// A Combined is what several measurements of one cue say together.
type Combined struct {
	Estimate
	// Changes are the measurements that lie further from those before them
	// than their intervals allow: the cue was changed, such as by a new tip or
	// ferrule, or one of the two is wrong.
	Changes []int
	Since   int // the first measurement that is in the estimate: that of the last change
}

// Combine puts measurements together, oldest first, each weighed by the
// inverse of its variance. Their errors are taken to be independent. Where one
// lies apart from all before it, by their 90 % intervals, the estimate starts
// afresh: it is of the cue as it is now. To two measurements as good as each
// other that happens by chance one time in fifty, to any at most one in ten.
//
// Source: the least-variance mean, in any text on errors, such as Bevington
// and Robinson, Data Reduction and Error Analysis, chapter 4.
func Combine(measured []Estimate) (Combined, error) {
	if len(measured) == 0 {
		return Combined{}, ErrNone
	}
	c := Combined{Estimate: measured[0]}
	for i, m := range measured[1:] {
		if math.Abs(m.Log-c.Log) > stat.Reach90*(m.Spread+c.Spread) {
			c.Since = i + 1
			c.Changes = append(c.Changes, c.Since)
			c.Estimate = m
			continue
		}
		was, now := 1/(c.Spread*c.Spread), 1/(m.Spread*m.Spread)
		c.Estimate = Estimate{(was*c.Log + now*m.Log) / (was + now), 1 / math.Sqrt(was+now)}
	}
	return c, nil
}
