package cues

import (
	"math"
	"slices"

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

// alarm is how sure it must be that a measurement lies apart from those before it:
// one time in a hundred it does by chance, so of ten measurements of a cue that
// stayed as it was at most one in ten has a change pointed out.
var alarm = stat.Reach(0.99)

// Combine returns what measurements say together, oldest first: their mean of least
// variance. The error that they share does not shrink with their number. Where one lies
// apart from all before it, the estimate starts afresh: it is of the cue as it is now.
//
// Source: the average of correlated readings by least squares, in texts on errors
// such as Cowan, Statistical Data Analysis, 7.6 (the section from memory).
func Combine(measured []EndMass) (Combined, error) {
	if len(measured) == 0 {
		return Combined{}, ErrNone
	}
	c := Combined{EndMass: measured[0]}
	for i, m := range measured[1:] {
		apart := apart(c.EndMass, m)
		if math.Abs(m.Log-c.Log) > alarm*apart {
			c.Since = i + 1
			c.Changes = append(c.Changes, c.Since)
			c.EndMass = m
			continue
		}
		both := covariance(c.EndMass, m)
		// No reading counts less than nothing, however good the other is.
		share := min(max((c.Spread*c.Spread-both)/(apart*apart), 0), 1)
		c.EndMass = EndMass{
			Log:    c.Log + share*(m.Log-c.Log),
			Spread: math.Sqrt((1-share)*(1-share)*c.Spread*c.Spread + share*share*m.Spread*m.Spread + 2*share*(1-share)*both),
			Shared: slices.Concat(scaled(c.Shared, 1-share), scaled(m.Shared, share)),
		}
	}
	return c, nil
}
