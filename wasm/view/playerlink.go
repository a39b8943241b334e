package view

import (
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// PlayerLink returns the fragment of a link to a player with his strokes. If that does not
// fit, the strokes are left out, and note says so.
func PlayerLink(m *app.Model, p *store.Player, fits func(fragment string) bool) (fragment, note string) {
	turns := m.Kept.TurnsOf(p.Name)
	fragment = p.Fragment(turns)
	if len(turns) == 0 || fits(fragment) {
		return fragment, ""
	}
	return p.Fragment(nil), "It holds " + p.Name + " without the strokes, which don't fit. Export your records to hand those on."
}

// Linkable reports whether a fragment is short enough for a link to a player.
func Linkable(fragment string) bool { return len(fragment) <= store.LongestLink }
