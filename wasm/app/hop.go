package app

import (
	"slices"

	"pivotbench/wasm/store"
)

// AddHop adds a hop to the records: the current shot and what was seen of it. Its fields
// are those of store.Hop. An invalid hop changes only the notices.
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
