package view

import (
	"strings"

	"pivotbench/core/gear"
	"pivotbench/core/scenario"
	"pivotbench/wasm/store"
)

// TableRecord returns a table record in words: its size, its cloth, and its measured
// values.
func TableRecord(t store.Table, units string) string {
	s := scenario.Default()
	t.Lay(&s)
	s.Units = units
	size, _ := gear.Find(gear.Tables, s.Table)
	cloth, _ := gear.Find(gear.Cloths, s.Cloth)
	parts := []string{size.Label, "cloth " + strings.ToLower(cloth.Label)}
	for _, name := range []string{"slide", "roll", "spindown", "hop", "diam", "mass"} {
		k := scenario.Find(name)
		if v, set := k.Number(&s); set {
			d := k.Display(units)
			switch name {
			case "roll":
				d.Decimals = 4
			case "slide":
				d.Decimals = 3
			}
			parts = append(parts, strings.ToLower(k.Label)+" "+d.Format(v))
		}
	}
	return strings.Join(parts, ", ")
}
