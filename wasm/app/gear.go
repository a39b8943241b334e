package app

import (
	"strconv"
	"strings"

	"pivotbench/core/scenario"
)

// A Gear is what the user plays with, as far as the user has said so. The device keeps it.
// A visit without a link begins with it. No link and no example shot changes it.
type Gear struct {
	Has   [scenario.Parts]bool // the parts that are the user's own
	Scene scenario.Scenario    // holds their values
}

// on lays the user's own parts on a shot.
func (g *Gear) on(s scenario.Scenario) scenario.Scenario {
	for part, has := range g.Has {
		if has {
			s.Take(scenario.Part(part), &g.Scene)
		}
	}
	return s
}

// take makes a part of a shot the user's own.
func (g Gear) take(part scenario.Part, from *scenario.Scenario) Gear {
	if g.Has == ([scenario.Parts]bool{}) {
		g.Scene = scenario.Default()
	}
	g.Has[part] = true
	g.Scene.Take(part, from)
	return g
}

// Format returns the gear as the device keeps it: a digit for each part, and a link.
func (g Gear) Format() string {
	if g.Has == ([scenario.Parts]bool{}) {
		return ""
	}
	var has strings.Builder
	for _, own := range g.Has {
		has.WriteString(map[bool]string{false: "0", true: "1"}[own])
	}
	return has.String() + " " + g.Scene.Format()
}

// parseGear reads the text of Format. It returns no gear for any other text.
func parseGear(text string) (g Gear) {
	has, link, _ := strings.Cut(text, " ")
	scene, problems := scenario.Parse(link)
	if len(has) != scenario.Parts || link == "" || problems != nil {
		return Gear{}
	}
	for part := range g.Has {
		if own, err := strconv.ParseBool(has[part : part+1]); err == nil && own {
			g = g.take(scenario.Part(part), &scene)
		}
	}
	return g
}

// MyGear returns a shot that holds the user's own gear, and that of the current shot for
// the parts that the user has not chosen.
func (m *Model) MyGear() scenario.Scenario { return m.Gear.on(m.Scene) }

// Other returns the user's own parts that differ in the current shot. There are none while
// a lesson is open, since it is about its own gear.
func (m *Model) Other() (parts []scenario.Part) {
	if m.Lesson.Lesson.Stops() > 0 {
		return nil
	}
	for part, has := range m.Gear.Has {
		if p := scenario.Part(part); has && !m.Scene.Shares(p, &m.Gear.Scene) {
			parts = append(parts, p)
		}
	}
	return parts
}

// SetGear sets a value of the user's own gear, and lays the part that it belongs to on
// the current shot. It changes only the notices if the value cannot be read.
type SetGear struct{ Key, Text string }

func (e SetGear) update(m Model) Model {
	part, ok := scenario.PartOf(e.Key)
	if !ok {
		return m
	}
	mine := m.MyGear()
	if p := scenario.Find(e.Key).Set(&mine, e.Text, ""); p != nil {
		m.Notices = []string{p.Error()}
		return m
	}
	m.Gear = m.Gear.take(part, &mine)
	return UseGear{}.update(m)
}

// UseGear lays the user's own gear on the current shot. Values that do not fit the table
// are adjusted, and the notices name them.
type UseGear struct{}

func (UseGear) update(m Model) Model {
	m = m.settled()
	m.Scene = m.Gear.on(m.Scene)
	return m.fitted()
}

// KeepGear makes parts of the current shot the user's own.
type KeepGear struct{ Parts []scenario.Part }

func (e KeepGear) update(m Model) Model {
	for _, part := range e.Parts {
		m.Gear = m.Gear.take(part, &m.Scene)
	}
	return m
}

// fitted moves what does not fit the table onto it, says so in the notices, and ends the
// gesture.
func (m Model) fitted() Model {
	m.Notices = nil
	for _, p := range m.Scene.Fit() {
		m.Notices = append(m.Notices, p.Error())
	}
	return m.settled()
}
