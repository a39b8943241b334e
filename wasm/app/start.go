package app

import (
	"slices"

	"pivotbench/core/link"
)

// A Door is one of the choices of the start: what a user wants to do, and the section for
// it.
type Door struct{ Name, Section string }

// Doors lists the choices in the order of the page.
var Doors = []Door{{"measure", "measure"}, {"aim", "shot"}, {"compare", "cues"}, {"teach", "lessons"}}

// ShowStart opens the start, or closes it.
type ShowStart struct{ On bool }

func (e ShowStart) update(m Model) Model {
	m.Starting, m.Door = e.On, ""
	return m
}

// TakeDoor closes the start and opens the section of a door. The next step of that job is
// shown there until it is done. It changes nothing for an unknown name.
type TakeDoor struct{ Name string }

func (e TakeDoor) update(m Model) Model {
	i := slices.IndexFunc(Doors, func(d Door) bool { return d.Name == e.Name })
	if i < 0 {
		return m
	}
	m = OpenSection{Doors[i].Section}.update(m)
	m.Door = e.Name
	return m
}

// EndStep hides the next step.
type EndStep struct{}

func (EndStep) update(m Model) Model {
	m.Door = ""
	return m
}

// isEmpty reports whether an address has no link in it.
func isEmpty(address string) bool { return link.Fragment(address) == "" }
