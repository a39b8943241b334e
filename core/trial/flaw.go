package trial

import (
	"math"

	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// A Fault is what keeps the tries at a set-up from being informative.
type Fault int

// The faults.
const (
	WideGap    Fault = iota // bridge lengths far apart all pass clean
	Swerving                // the elevation, known to a degree or so, moves the ball as the pivot length does
	LittleSide              // so little english that squirt hides in the shooter's scatter
)

// A Flaw is a fault of a set-up and its size.
type Flaw struct {
	Fault Fault
	// For WideGap, the range of bridge lengths that pass clean, and for Swerving
	// the half width of the 90 % interval that no number of tries removes: shares
	// of the pivot length. For LittleSide, how far a pivot length a tenth longer
	// moves the ball, as a share of the scatter.
	Size float64
}

// The sizes from which a flaw is reported: a judgement.
const (
	mostClean    = 0.5
	mostSwerving = 0.08
	leastMoved   = 0.2
)

// Flaws returns the flaws of a set-up, for the cue and the shooter as known by now
// and bridge lengths that the player can reach.
func (p *Posterior) Flaws(s *shot.Shot, least, most unit.Length) []Flaw {
	var out []Flaw
	pivot, scatter := p.Pivot().Median, p.Scatter().Median
	if from, to, ok := PassRange(s, unit.Length(pivot), least, most); ok && float64(to-from) > mostClean*pivot {
		out = append(out, Flaw{WideGap, float64(to-from) / pivot})
	}
	view := p.outlook(s, least, most)
	moved := 0.0
	if !math.IsNaN(view.slope) && !math.IsInf(view.slope, 0) {
		moved = math.Abs(view.slope) * math.Log(1.1) / scatter
	}
	if moved < leastMoved {
		out = append(out, Flaw{LittleSide, moved})
	}
	if stays := stat.Reach90 * math.Sqrt(view.floor); moved > 0 && stays > mostSwerving {
		out = append(out, Flaw{Swerving, stays})
	}
	return out
}
