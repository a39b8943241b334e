package app

import (
	"pivotbench/core/scenario"
	"pivotbench/core/trial"
	"pivotbench/core/unit"
)

// Measured is the record of what tries at the gate came to.
func Measured(s *scenario.Scenario, pivot trial.Estimate, how, when string) CueRecord {
	c := Typed(s, when)
	c.Pivot, c.From, c.To = inches(pivot.Median), inches(pivot.Most.From), inches(pivot.Most.To)
	c.How = how
	return c
}

// Typed is the record of the cue on the bench as it was typed in.
func Typed(s *scenario.Scenario, when string) CueRecord {
	return CueRecord{
		Name: s.Name, Pivot: scenario.Find("pivot").Value(s), At: scenario.Find("pivotspin").Value(s),
		How: "typed", Link: s.Format(), When: when,
	}
}

// Shown is a record in words, in the reader's units.
func (c CueRecord) Shown(units string) string {
	s := scenario.Default()
	s.Units = units
	long := scenario.DisplayOf(unit.LengthKind, units)
	read := func(text string) float64 { v, _ := unit.Parse(text, unit.LengthKind, ""); return v }
	words := "pivot " + long.Format(read(c.Pivot)) + " at " + c.At + " R"
	if c.From != "" && c.To != "" {
		words += ", 90 % between " + long.Number(read(c.From)) + " and " + long.Format(read(c.To))
	}
	return words + ", " + map[string]string{"gate": "by the gate", "marks": "by marks", "typed": "typed in"}[c.How]
}
