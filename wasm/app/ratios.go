package app

import (
	"pivotbench/core/hop"
	"pivotbench/core/stat"
)

// narrowed returns the model with the ratios of contact times that agree with the
// recorded hops. It computes them only if the records, ball, cue or cloth have changed.
// A canvas has no recorded hops and keeps the ratios from its Mirror.
func (m Model) narrowed(before *Model) Model {
	if len(m.Kept.Hops)+len(before.Kept.Hops) == 0 {
		return m
	}
	now, then := m.Scene.Shot(), before.Scene.Shot()
	if m.Changes == before.Changes && now.Ball == then.Ball && now.Cue == then.Cue && now.Cloth == then.Cloth {
		return m
	}
	m.Ratios = stat.Interval[float64]{}
	if seen := m.Kept.HopsLike(&m.Scene); len(seen) > 0 {
		if left, err := hop.Narrow(hop.Usual(now.Cue.Tip).Ratios(), seen); err == nil {
			m.Ratios = left
		}
	}
	return m
}
