package app

import (
	"slices"
	"strconv"
	"strings"

	"pivotbench/core/sitting"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

// A Sure is a quantity that all strokes of a sitting share and that is known with some
// uncertainty: one standard deviation of its error.
type Sure struct {
	Key, Label string
	Kind       unit.Kind
	Unit       string  // unit in which it is shown; a length follows the units of the scene
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

// Text returns the uncertainty as text for a field, in the unit of the field. units are
// those of the scene.
func (s *Sure) Text(u sitting.SetUp, units string) string { return s.format(*s.at(&u), units) }

func (s *Sure) format(v float64, units string) string {
	in, _ := s.Kind.Find(s.unit(units))
	return strconv.FormatFloat(v/in.SI, 'g', 4, 64)
}

// unit returns the unit of the field.
func (s *Sure) unit(units string) string {
	if s.Kind == unit.LengthKind {
		return units
	}
	return s.Unit
}

// Value returns the uncertainty in SI units.
func (s *Sure) Value(u sitting.SetUp) float64 { return *s.at(&u) }

// SetSure sets the uncertainty of a quantity of the set-up, for every sitting. What was
// checked in the present one no longer counts. A value that cannot be read or is out of
// range changes only the notices.
type SetSure struct{ Key, Text string }

func (e SetSure) update(m Model) Model {
	m.Notices = nil
	for i := range Sures {
		s := &Sures[i]
		if s.Key != e.Key {
			continue
		}
		units := m.Scene.Units
		v, err := unit.Parse(e.Text, s.Kind, s.unit(units))
		if err != nil || v < 0 || v > s.Most {
			m.Notices = []string{s.Label + ": “" + unit.Clip(e.Text) + "” can't be used; allowed: 0 to " + strings.TrimSpace(s.format(s.Most, units)+" "+s.unit(units)) + "."}
			return m
		}
		if s.Value(m.SittingOn().SetUp) != v {
			k := m.Kept
			k.Checks = m.checksBut(s.Key)
			m = m.settled().put(k)
			*s.at(&m.SetUp) = v
		}
	}
	return m
}

// checksBut returns the checks without those of a quantity in the sitting that goes on.
func (m *Model) checksBut(key string) (out []store.Check) {
	for i := range m.Kept.Checks {
		if c := &m.Kept.Checks[i]; c.Of != key || !m.isNow(c.When) {
			out = append(out, *c)
		}
	}
	return out
}

// isNow reports whether a moment belongs to the sitting that goes on.
func (m *Model) isNow(when string) bool {
	with := *m
	with.Kept.Strokes = append(slices.Clip(m.Kept.Strokes), store.Stroke{When: when})
	return slices.Contains(with.SittingOn().Strokes, len(m.Kept.Strokes))
}

// A Sureness is how well a quantity of the set-up is known from a reading: the standard
// deviation of its error, in the units of SetUp.
type Sureness struct {
	Key   string // of one of Sures
	Error float64
}

// UseReading sets controls to what an instrument has read, as one step for undo. Where
// the reading knows a quantity of the set-up better than before, it narrows that
// uncertainty for the sitting that goes on. Values that cannot be read are skipped, and
// the notices name them.
type UseReading struct {
	Sets []Setting
	Sure []Sureness
	When string
}

func (e UseReading) update(m Model) Model {
	m = m.settled().clocked(e.When)
	known, k := m.SittingOn().SetUp, m.Kept
	for _, s := range e.Sure {
		for i := range Sures {
			if Sures[i].Key == s.Key && s.Error < Sures[i].Value(known) {
				c := store.Check{Of: s.Key, Error: unit.Exact(max(s.Error, 0), Sures[i].Kind, Sures[i].Unit), When: e.When}
				k.Checks = append(slices.Clip(k.Checks), c.Clean())
			}
		}
	}
	next := SetAll{e.Sets}.update(m)
	if err := k.Fits(m.Kept); err != nil || len(k.Checks) == len(m.Kept.Checks) {
		return next
	}
	if next.Scene == m.Scene { // so it is no step for undo yet
		return next.put(k)
	}
	next.Kept = k
	next.Changes++
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
