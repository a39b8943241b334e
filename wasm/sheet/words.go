package sheet

import (
	"pivotbench/core/scenario"
	"pivotbench/wasm/phrase"
)

// shown returns a key's value in the reader's units.
func (p *pen) shown(key string) string { return scenario.Find(key).Shown(p.s) }

// named returns a key's value after a name. On a narrow sheet it leaves out a zero
// decimal.
func (p *pen) named(name, key string) string {
	if p.v.Width < 30*p.typeSize() {
		return name + " " + phrase.Brief(p.shown(key))
	}
	return name + " " + p.shown(key)
}
