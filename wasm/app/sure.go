package app

import (
	"strconv"
	"strings"

	"pivotbench/core/sitting"
	"pivotbench/core/unit"
)

// A Sure is how well something that all strokes of a sitting take as given is
// known: one standard deviation of its error.
type Sure struct {
	Key, Label string
	Kind       unit.Kind
	Unit       string  // that it is shown and kept in
	Most       float64 // in SI
	at         func(*sitting.SetUp) *float64
}

// Sures are those of the set-up.
var Sures = []Sure{
	{"elevation", "Elevation", unit.AngleKind, "deg", 10 * float64(unit.Degree), func(u *sitting.SetUp) *float64 { return (*float64)(&u.Elevation) }},
	{"bridge", "Bridge length", unit.LengthKind, "in", float64(2 * unit.Inch), func(u *sitting.SetUp) *float64 { return (*float64)(&u.Bridge) }},
	{"offset", "Tip offset, R", unit.Ratio, "", 0.2, func(u *sitting.SetUp) *float64 { return &u.Offset }},
	{"speed", "Speed, share", unit.Ratio, "", 0.5, func(u *sitting.SetUp) *float64 { return &u.Speed }},
	{"slide", "Cloth, share", unit.Ratio, "", 0.5, func(u *sitting.SetUp) *float64 { return &u.Slide }},
}

// Text is how well it is known, as a field has it.
func (s *Sure) Text(u sitting.SetUp) string {
	in, _ := s.Kind.Find(s.Unit)
	return strconv.FormatFloat(*s.at(&u)/in.SI, 'g', 4, 64)
}

// SetSure says how well something of the set-up is known.
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
			m.Notices = []string{"How sure of " + strings.ToLower(s.Label) + ": read “" + unit.Clip(e.Text) + "”, allowed: 0 to " + strconv.FormatFloat(s.Most/in.SI, 'g', 4, 64) + " " + s.Unit + "."}
			return m
		}
		*s.at(&m.SetUp) = v
	}
	return m
}

// FormatSetUp returns how well the set-up is known, as the device keeps it.
func FormatSetUp(u sitting.SetUp) string {
	var out []string
	for i := range Sures {
		out = append(out, strconv.FormatFloat(*Sures[i].at(&u), 'g', -1, 64))
	}
	return strings.Join(out, " ")
}

// parseSetUp reads it; what can't be read is sitting.Habit.
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
