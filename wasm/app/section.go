package app

import "slices"

// Sections are those of the page, in the order of their tabs.
var Sections = []string{"shot", "measure", "cues", "card", "clearance", "instruments", "lessons", "reference"}

// OpenSection opens a section of the page.
type OpenSection struct{ Name string }

func (e OpenSection) update(m Model) Model {
	if slices.Contains(Sections, e.Name) {
		m.Section = e.Name
		m.Look.Side = e.Name == "clearance"
	}
	return m
}

// HandsFull reports whether the open section is one during which the user's hands
// are on the table, so that the screen should stay on.
func (m *Model) HandsFull() bool { return m.Section == "measure" || m.Section == "instruments" }

// ReadCautions is the user having read the cautions for hops.
type ReadCautions struct{}

func (ReadCautions) update(m Model) Model {
	m.Cautioned = true
	return m
}
