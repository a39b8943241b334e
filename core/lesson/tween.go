package lesson

import "pivotbench/core/scenario"

// Between returns a scenario part of the way from one to another, so that a class sees
// what changes: the cue turns, the ball slides. Numbers change linearly. Names switch to
// the later value at once, and so does a speed that is the ball's in one scenario and the
// cue's in the other. Part 0 is exactly from, and part 1 exactly to.
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
