package sheet

import "pivotbench/core/scenario"

// shown is a key's value in the reader's units.
func (p *pen) shown(key string) string { return scenario.Find(key).Shown(p.s) }
