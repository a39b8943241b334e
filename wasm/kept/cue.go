package kept

import (
	"pivotbench/core/scenario"
	"pivotbench/core/trial"
	"pivotbench/core/unit"
)

// Measured is the record of what tries at the gate came to.
func Measured(s *scenario.Scenario, pivot trial.Estimate, how, when string) Cue {
	c := Typed(s, when)
	c.Pivot, c.From, c.To = Length(pivot.Median), Length(pivot.Most.From), Length(pivot.Most.To)
	c.How = how
	return c
}

// Typed is the record of the cue on the bench as it was typed in.
func Typed(s *scenario.Scenario, when string) Cue {
	return Cue{
		Name: s.Name, Pivot: scenario.Find("pivot").Value(s), At: scenario.Find("pivotspin").Value(s),
		How: "typed", Link: s.Format(), When: when,
	}
}

// Length is a length as a record holds it: with its unit, and reading back to
// the same value.
func Length(v float64) string { return unit.Exact(v, unit.LengthKind, "in") }
