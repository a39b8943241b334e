package scenario

import (
	"strconv"
	"strings"

	"pivotbench/core/margin"
	"pivotbench/core/unit"
)

// scatterKey is the five standard deviations.
var scatterKey = Key{
	Name: "scatter", Label: "Scatter",
	Meaning: "one standard deviation each of tip placement, speed (as a share), bridge, elevation and aim, joined by commas",
	form: &form{
		format: func(s *Scenario) string { return scatterList(&s.Scatter).join() },
		parse: func(s *Scenario, text string) error {
			var c margin.Scatter
			if err := scatterList(&c).split(text); err != nil {
				return err
			}
			s.Scatter = c
			return nil
		},
		allowed: "tip 0 to 20 mm, speed 0 to 1, bridge 0 to 10 in, elevation 0 to 20 deg, aim 0 to 10 deg, joined by commas",
	},
}

func scatterList(c *margin.Scatter) list {
	return list{
		{unit.LengthKind, "mm", 20 * mm, (*float64)(&c.Tip)},
		{unit.Ratio, "", 1, &c.Speed},
		{unit.LengthKind, "in", 10 * inch, (*float64)(&c.Bridge)},
		{unit.AngleKind, "deg", 20 * float64(unit.Degree), (*float64)(&c.Elev)},
		{unit.AngleKind, "deg", 10 * float64(unit.Degree), (*float64)(&c.Aim)},
	}
}

// A list is numbers from 0 to a most, joined by commas.
type list []struct {
	quantity unit.Kind
	unit     string
	most     float64
	value    *float64
}

func (l list) join() string {
	parts := make([]string, len(l))
	for i, e := range l {
		parts[i] = unit.Exact(*e.value, e.quantity, e.unit)
	}
	return strings.Join(parts, ",")
}

func (l list) split(text string) error {
	parts := strings.Split(text, ",")
	if len(parts) != len(l) {
		return errRange
	}
	for i, e := range l {
		v, err := unit.Parse(parts[i], e.quantity, "")
		if err != nil || !within(v, 0, e.most) {
			return errRange
		}
		*e.value = v
	}
	return nil
}

// further is the key of a further cue: the values of cueKeys, then a name.
func further(i int) Key {
	return Key{
		Name: "cue" + strconv.Itoa(i+2), Label: "Cue " + strconv.Itoa(i+2),
		Meaning: "a further cue to compare: pivot, pivotspin, cuemass, tip, bounce and name, joined by commas",
		form: &form{
			format:  func(s *Scenario) string { return s.More[i].format() },
			parse:   func(s *Scenario, text string) error { return s.More[i].parse(text) },
			allowed: "pivot, pivotspin, cuemass, tip, bounce as those keys allow, and a name, joined by commas",
		},
	}
}

func (c *Cue) format() string {
	if c.Pivot == 0 {
		return ""
	}
	s := Scenario{Pivot: c.Pivot, PivotSpin: c.PivotSpin, CueMass: c.Mass, Tip: c.Tip, Bounce: c.Bounce}
	var text strings.Builder
	for i := range cueKeys {
		text.WriteString(cueKeys[i].Value(&s) + ",")
	}
	return text.String() + c.Name
}

func (c *Cue) parse(text string) error {
	if text == "" {
		*c = Cue{}
		return nil
	}
	parts := strings.SplitN(text, ",", len(cueKeys)+1)
	if len(parts) <= len(cueKeys) || !validName(parts[len(cueKeys)]) {
		return errRange
	}
	var s Scenario
	for i := range cueKeys {
		if err := cueKeys[i].read(&s, parts[i], ""); err != nil {
			return err
		}
	}
	*c = Cue{s.Pivot, s.PivotSpin, s.CueMass, s.Tip, s.Bounce, parts[len(cueKeys)]}
	return nil
}
