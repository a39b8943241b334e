package app

import (
	"strconv"
	"strings"

	"pivotbench/core/sitting"
	"pivotbench/core/unit"
)

// A Sure is a quantity that all strokes of a sitting share and that is known with some
// uncertainty: one standard deviation of its error.
type Sure struct {
	Key, Label string
	Kind       unit.Kind
	Unit       string  // unit in which it is shown
	Most       float64 // maximum of the uncertainty, in SI units
	at         func(*sitting.SetUp) *float64
}

// Sures lists the quantities of the set-up.
var Sures = []Sure{
	{"elevation", "Elevation, give or take", unit.AngleKind, "°", 10 * float64(unit.Degree), func(u *sitting.SetUp) *float64 { return (*float64)(&u.Elevation) }},
	{"bridge", "Bridge, give or take", unit.LengthKind, "in", float64(2 * unit.Inch), func(u *sitting.SetUp) *float64 { return (*float64)(&u.Bridge) }},
	{"offset", "Tip offset in R, give or take", unit.Ratio, "", 0.2, func(u *sitting.SetUp) *float64 { return &u.Offset }},
	{"speed", "Speed, give or take", unit.Ratio, "%", 0.5, func(u *sitting.SetUp) *float64 { return &u.Speed }},
	{"slide", "Cloth friction, give or take", unit.Ratio, "%", 0.5, func(u *sitting.SetUp) *float64 { return &u.Slide }},
}

// Text returns the uncertainty as text for a field, in the unit of the field.
func (s *Sure) Text(u sitting.SetUp) string {
	in, _ := s.Kind.Find(s.Unit)
	return strconv.FormatFloat(*s.at(&u)/in.SI, 'g', 4, 64)
}

// Value returns the uncertainty in SI units.
func (s *Sure) Value(u sitting.SetUp) float64 { return *s.at(&u) }

// SetSure sets the uncertainty of a quantity of the set-up. A value that cannot be read
// or is out of range changes only the notices.
type SetSure struct{ Key, Text string }

func (e SetSure) update(m Model) Model {
	m.Notices = nil
	for i := range Sures {
		s := &Sures[i]
		if s.Key != e.Key {
			continue
		}
		v, err := unit.Parse(e.Text, s.Kind, s.Unit)
		in, _ := s.Kind.Find(s.Unit)
		if err != nil || v < 0 || v > s.Most {
			m.Notices = []string{s.Label + ": “" + unit.Clip(e.Text) + "” can't be used; allowed: 0 to " + strconv.FormatFloat(s.Most/in.SI, 'g', 4, 64) + " " + s.Unit + "."}
			return m
		}
		if *s.at(&m.SetUp) != v {
			m = m.settled()
			m = m.remember(m.Scene)
			*s.at(&m.SetUp) = v
		}
	}
	return m
}

// A Sureness is how well a quantity of the set-up is known from a reading: the standard
// deviation of its error, in the units of SetUp.
type Sureness struct {
	Key   string // of one of Sures
	Error float64
}

// UseReading sets controls to what an instrument has read, as one step for undo. Where
// the reading knows a quantity of the set-up better than before, it narrows that
// uncertainty. Values that cannot be read are skipped, and the notices name them.
type UseReading struct {
	Sets []Setting
	Sure []Sureness
}

func (e UseReading) update(m Model) Model {
	m = m.settled()
	sure := m.SetUp
	for _, s := range e.Sure {
		for i := range Sures {
			if at := Sures[i].at(&sure); Sures[i].Key == s.Key && s.Error < *at {
				*at = max(s.Error, 0)
			}
		}
	}
	next := SetAll{e.Sets}.update(m)
	if sure == m.SetUp {
		return next
	}
	if next.Scene == m.Scene { // so it is no step for undo yet
		next = next.remember(m.Scene)
	}
	next.SetUp = sure
	return next
}

// FormatSetUp returns the uncertainties of the set-up as text for the device, in SI
// units.
func FormatSetUp(u sitting.SetUp) string {
	var out []string
	for i := range Sures {
		out = append(out, strconv.FormatFloat(*Sures[i].at(&u), 'g', -1, 64))
	}
	return strings.Join(out, " ")
}

// parseSetUp reads the text of FormatSetUp. It returns sitting.Habit for any other text.
func parseSetUp(text string) sitting.SetUp {
	u, words := sitting.Habit, strings.Fields(text)
	if len(words) != len(Sures) {
		return u
	}
	for i := range Sures {
		v, err := strconv.ParseFloat(words[i], 64)
		if err != nil || !(v >= 0 && v <= Sures[i].Most) {
			return sitting.Habit
		}
		*Sures[i].at(&u) = v
	}
	return u
}
