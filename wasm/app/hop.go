package app

import (
	"slices"

	"pivotbench/wasm/store"
)

// AddHop notes down what was seen of a hop played as the scene stands.
type AddHop struct{ Saw, High, When string }

func (e AddHop) update(m Model) Model {
	m = m.settled()
	h := store.Hop{Link: m.Scene.Format(), Saw: e.Saw, High: e.High, When: e.When}.Clean()
	m.Notices = nil
	if _, err := h.Seen(); err != nil {
		m.Notices = []string{"Not noted: " + err.Error()}
		return m
	}
	k := m.Kept
	k.Hops = append(slices.Clip(k.Hops), h)
	return m.keep(k)
}
