package show

import (
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/kept"
)

// Cue is a record in words, in the reader's units.
func Cue(c kept.Cue, units string) string {
	s := scenario.Default()
	s.Units = units
	long := scenario.DisplayOf(unit.LengthKind, units)
	read := func(text string) float64 { v, _ := unit.Parse(text, unit.LengthKind, ""); return v }
	said := "pivot " + long.Format(read(c.Pivot)) + " at " + c.At + " R"
	if c.From != "" && c.To != "" {
		said += ", 90 % between " + long.Number(read(c.From)) + " and " + long.Format(read(c.To))
	}
	return said + ", " + map[string]string{"gate": "by the gate", "marks": "by marks", "typed": "typed in"}[c.How]
}
