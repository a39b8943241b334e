package app

import "pivotbench/wasm/store"

// SetMarks replaces the marks that an older version kept as text.
type SetMarks struct{ Marks store.Marks }

func (e SetMarks) update(m Model) Model {
	k := m.Kept
	k.Marks = e.Marks.Clean()
	return m.keep(k)
}
