package phrase

import (
	"math"
	"strings"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// Caption replaces the readings and keys that a caption names in braces, such as {squirt}
// and {bridge}, by their values for a scenario that has been played. A name that is
// neither is left as it is. A reading without a value becomes a dash.
func Caption(text string, s *scenario.Scenario, r *shot.Reading) string {
	var out strings.Builder
	for {
		before, rest, found := strings.Cut(text, "{")
		out.WriteString(before)
		name, after, closed := strings.Cut(rest, "}")
		if !found {
			return out.String()
		}
		value, known := named(name, s, r)
		if !closed || !known {
			out.WriteString("{")
			text = rest
			continue
		}
		out.WriteString(value)
		text = after
	}
}

// named returns the reading or key with a name, in words.
func named(name string, s *scenario.Scenario, r *shot.Reading) (value string, known bool) {
	if name == "verdict" {
		return Verdict(s, r).Head, true
	}
	for i := range shot.Specs {
		if spec := &shot.Specs[i]; spec.Name == name {
			v, err := spec.Get(r)
			if err != nil {
				return "–", true
			}
			return reading(spec, v, s), true
		}
	}
	k := scenario.Find(name)
	if k == nil || strings.Contains(name, ".") {
		return "", false
	}
	switch name {
	case "side":
		return offset(s.Side, "left", "right"), true
	case "height":
		return offset(s.Height, "below", "above"), true
	case "back":
		return Percent(s.Back), true
	case "front":
		return Percent(s.Front), true
	}
	return Brief(k.Shown(s)), true
}

// reading returns a reading in words. One that may be to either side says which.
func reading(spec *shot.Spec, v float64, s *scenario.Scenario) string {
	angle := scenario.Display{Quantity: unit.AngleKind, Unit: "°", Decimals: 2}
	switch spec.Name {
	case "arrival":
		return Sideways(s, unit.Length(v))
	case "heading", "launch", "swerve", "throw":
		return Turned(unit.Angle(v))
	case "squirt":
		return angle.Format(math.Abs(v))
	case "miscue-margin":
		return angle.Format(v)
	case "share-back":
		return Percent(v)
	}
	if spec.Small() {
		return Small(s, v)
	}
	if spec.Kind == unit.LengthKind {
		return Length(s, unit.Length(v))
	}
	d := scenario.DisplayOf(spec.Kind, s.Units)
	if spec.Kind == unit.MassKind {
		d.Decimals = 1
	}
	return d.Format(v)
}

// offset returns one part of the tip offset in words, in ball radii.
func offset(v float64, less, more string) string {
	text := scenario.DisplayOf(unit.Ratio, "").Number(math.Abs(v)) + " R"
	switch {
	case v < 0:
		return text + " " + less
	case v > 0:
		return text + " " + more
	}
	return text
}
