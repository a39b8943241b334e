package scenario

import (
	"strconv"
	"strings"

	"pivotbench/core/typed"
	"pivotbench/core/unit"
)

// scatterParts are the standard deviations. Each can be set by itself, and all travel as
// one key. The last one is left out of it when it is 0, as it is in older links.
var scatterParts = []Key{
	number("scatter.tip", "Tip wander", "how far the tip strays on the stroke, with the bridge hand planted: one standard deviation", unit.LengthKind, "mm", 0, 20*mm, func(s *Scenario) *unit.Length { return &s.Scatter.Tip }),
	number("scatter.speed", "Speed error", "how far off your speed is, as a share of it: one standard deviation", unit.Ratio, "", 0, 1, func(s *Scenario) *float64 { return &s.Scatter.Speed }),
	number("scatter.bridge", "Bridge error", "how far off your bridge length is: one standard deviation", unit.LengthKind, "in", 0, 10*inch, func(s *Scenario) *unit.Length { return &s.Scatter.Bridge }),
	number("scatter.elev", "Elevation error", "how far off your elevation is: one standard deviation", unit.AngleKind, "deg", 0, 20*float64(unit.Degree), func(s *Scenario) *unit.Angle { return &s.Scatter.Elev }),
	number("scatter.aim", "Aim spread", "how far off your aim is: one standard deviation", unit.AngleKind, "deg", 0, 10*float64(unit.Degree), func(s *Scenario) *unit.Angle { return &s.Scatter.Aim }),
	number("scatter.dial", "Dialling error", "how far to the side of your mark the hands set the tip: one standard deviation", unit.LengthKind, "mm", 0, 20*mm, func(s *Scenario) *unit.Length { return &s.Scatter.Dial }),
}

// scatterKey is the key of the whole list.
var scatterKey = Key{
	Name: "scatter", Label: "Your errors",
	Meaning: "how far you stray on a stroke: one standard deviation each of the tip, speed (as a share), bridge, elevation, aim and, if it is not 0, dialling, joined by commas",
	form: &form{
		format: func(s *Scenario) string {
			if s.Scatter.Dial == 0 {
				return join(scatterParts[:len(scatterParts)-1], s)
			}
			return join(scatterParts, s)
		},
		parse: func(s *Scenario, text string) error {
			var read Scenario
			parts, values := scatterParts, strings.Split(text, ",")
			if len(values) == len(parts)-1 {
				parts = parts[:len(values)]
			}
			if err := split(parts, &read, values); err != nil {
				return err
			}
			s.Scatter = read.Scatter
			return nil
		},
		allowed: "tip 0 to 20 mm, speed 0 to 1, bridge 0 to 10 in, elevation 0 to 20 deg, aim 0 to 10 deg, dialling 0 to 20 mm or left out, joined by commas",
	},
}

// join writes the values of some keys as a list.
func join(parts []Key, s *Scenario) string {
	values := make([]string, len(parts))
	for i := range parts {
		values[i] = parts[i].Value(s)
	}
	return strings.Join(values, ",")
}

// split reads a list into the values of some keys.
func split(parts []Key, s *Scenario, values []string) error {
	if len(values) != len(parts) {
		return errRange
	}
	for i := range parts {
		if err := parts[i].read(s, values[i], ""); err != nil {
			return err
		}
	}
	return nil
}

// further returns the key of a further cue: the values of cueKeys, then a name.
func further(i int) Key {
	return Key{
		Name: "cue" + strconv.Itoa(i+2), Label: "Cue " + strconv.Itoa(i+2),
		Meaning: "another cue to compare: pivot, pivotspin, cuemass, tip, bounce and name, joined by commas",
		form: &form{
			format:  func(s *Scenario) string { return s.More[i].format() },
			parse:   func(s *Scenario, text string) error { return s.More[i].parse(text) },
			allowed: "what the keys pivot, pivotspin, cuemass, tip and bounce allow, and a name, joined by commas",
		},
	}
}

func (c *CueSpec) format() string {
	if c.Pivot == 0 {
		return ""
	}
	s := Scenario{Pivot: c.Pivot, PivotSpin: c.PivotSpin, CueMass: c.Mass, Tip: c.Tip, Bounce: c.Bounce}
	return join(cueKeys, &s) + "," + c.Name
}

func (c *CueSpec) parse(text string) error {
	if text == "" {
		*c = CueSpec{}
		return nil
	}
	values := strings.SplitN(text, ",", len(cueKeys)+1)
	if len(values) <= len(cueKeys) {
		return errRange
	}
	name, cut := typed.Line(values[len(cueKeys)], longestName)
	if cut {
		return errRange
	}
	var s Scenario
	if err := split(cueKeys, &s, values[:len(cueKeys)]); err != nil {
		return err
	}
	*c = CueSpec{s.Pivot, s.PivotSpin, s.CueMass, s.Tip, s.Bounce, name}
	return nil
}
