package cues

import (
	"math"

	"pivotbench/core/stat"
)

// A Combined is what several measurements of one cue say together.
type Combined struct {
	EndMass
	// Changes are the measurements that lie further from those before them than
	// their intervals allow: the cue was changed, such as by a new tip or ferrule,
	// or one of the measurements is wrong.
	Changes []int
	Since   int // the first measurement in EndMass: that of the last change
}

// Combine returns the mean of measurements, oldest first, weighted by their inverse
// variances. Their errors are taken to be independent. When the 90 % interval of a
// measurement does not meet that of those before it, the mean starts again from
// there: it is for the cue as it is now. By chance that happens to one in fifty
// pairs of equally good measurements, and to at most one in ten of any.
//
// Source: Bevington and Robinson, Data Reduction and Error Analysis, chapter 4.
func Combine(measured []EndMass) (Combined, error) {
	if len(measured) == 0 {
		return Combined{}, ErrNone
	}
	c := Combined{EndMass: measured[0]}
	for i, m := range measured[1:] {
		if math.Abs(m.Log-c.Log) > stat.Reach90*(m.Spread+c.Spread) {
			c.Since = i + 1
			c.Changes = append(c.Changes, c.Since)
			c.EndMass = m
			continue
		}
		was, now := 1/(c.Spread*c.Spread), 1/(m.Spread*m.Spread)
		c.EndMass = EndMass{(was*c.Log + now*m.Log) / (was + now), 1 / math.Sqrt(was+now)}
	}
	return c, nil
}
