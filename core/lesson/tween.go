package lesson

import "pivotbench/core/scenario"

// Between is the scenario part of the way from one to another, so that a class
// sees what changes: the cue turns, the ball slides. Numbers move, all in
// step; names, and a speed that is the ball's on one side and the cue's on the
// other, are the later one's at once. Part 0 is the first and 1 the second,
// exactly.
func Between(from, to *scenario.Scenario, part float64) scenario.Scenario {
	if part <= 0 {
		return *from
	}
	s := *to
	if part >= 1 {
		return s
	}
	keys := scenario.Keys()
	for i := range keys {
		k := &keys[i]
		if !k.IsNumber() {
			continue
		}
		a, given := k.Number(from)
		b, wanted := k.Number(to)
		if a == b || k.IsSpeed() && !(given && wanted) {
			continue
		}
		k.Put(&s, a+(b-a)*part)
	}
	return s
}
