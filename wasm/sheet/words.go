package sheet

import (
	"strings"

	"pivotbench/core/scenario"
)

// shown is a key's value in the reader's units.
func (p *pen) shown(key string) string { return scenario.Find(key).Shown(p.s) }

// short leaves out a decimal that says nothing: 12 in for 12.0 in.
func short(shown string) string { return strings.Replace(shown, ".0", "", 1) }
