package sitting

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/unit"
)

// Possible returns nil when the stroke is physically possible, and otherwise the
// reason why not. It checks what Posterior.Add checks, at a fraction of the cost.
func (k Stroke) Possible() error {
	if err := k.check(); err != nil {
		return err
	}
	s := k.Shot
	s.Cue.Tip.Friction = math.Inf(1) // a recorded stroke did not miscue
	seen := k.Seen.sees(&s)
	var path motion.Path
	var why error
	for _, pivot := range grid {
		s.Cue.Pivot = unit.Length(pivot)
		if why = s.Send(&path); why != nil {
			continue
		}
		for _, n := range seen {
			if _, why = n.of(&path); why == nil {
				return nil
			}
		}
	}
	return why
}
