package sheet

import (
	"pivotbench/core/scenario"
	"pivotbench/wasm/phrase"
)

// shown is a key's value in the reader's units.
func (p *pen) shown(key string) string { return scenario.Find(key).Shown(p.s) }

// named is a key's value after a name. A narrow sheet has no room for noughts.
func (p *pen) named(name, key string) string {
	if p.v.Width < 30*p.typeSize() {
		return name + " " + phrase.Brief(p.shown(key))
	}
	return name + " " + p.shown(key)
}
