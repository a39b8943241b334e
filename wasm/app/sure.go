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
	{"elevation", "Elevation, give or take", unit.AngleKind, "deg", 10 * float64(unit.Degree), func(u *sitting.SetUp) *float64 { return (*float64)(&u.Elevation) }},
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
		*s.at(&m.SetUp) = v
	}
	return m
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
