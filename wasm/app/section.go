package app

import "slices"

// Sections lists the names of the page's sections, in the order of their tabs.
var Sections = []string{"shot", "measure", "cues", "card", "players", "clearance", "instruments", "lessons", "reference"}

// OpenSection opens a section of the page and closes the start. It sets Look.Side for the
// section on clearance and clears it for every other. A player is filmed no longer once a
// section other than those for measuring and for the shot is opened. It changes nothing for
// an unknown name.
type OpenSection struct{ Name string }

func (e OpenSection) update(m Model) Model {
	if slices.Contains(Sections, e.Name) {
		if e.Name != "measure" && e.Name != "shot" {
			m = m.filmLeft()
		}
		m.Section, m.Starting, m.Door = e.Name, false, ""
		m.Table.On = m.Table.On && e.Name == "measure"
		m.Look.Side = e.Name == "clearance"
	}
	return m
}

// HandsFull reports whether the open section is one in which the user plays at a table
// without touching the screen, so that the screen should stay on.
func (m *Model) HandsFull() bool {
	return m.Section == "measure" || m.Section == "players" || m.Section == "instruments"
}

// ReadCautions records that the user has read the cautions for hops.
type ReadCautions struct{}

func (ReadCautions) update(m Model) Model {
	m.Cautioned = true
	return m
}
