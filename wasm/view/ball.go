package view

import (
	"errors"

	"pivotbench/core/gear"
	"pivotbench/core/instrument"
	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// Ball returns a ball's diameter and mass, and whether they are within the
// standards' limits. size is the reading of a caliper, or of a tape around the ball
// when round is set. size or weight may be empty.
func Ball(s *scenario.Scenario, size string, round bool, weight string) (Gauged, []Fact) {
	if size == "" && weight == "" {
		return Gauged{Note: "Type the size, the mass, or both."}, nil
	}
	var g Gauged
	var across stat.Estimate[unit.Length]
	var mass stat.Estimate[unit.Mass]
	var errs [2]error
	if size != "" {
		across, errs[0] = diameter(size, round)
		part := answer(ballSize(s), across, 1, errs[0], setting("diam", across.Median, ballSize(s)))
		g.Head, g.Sets = part.Head, part.Sets
	}
	if weight != "" {
		var m unit.Mass
		if m, errs[1] = quantity[unit.Mass]("mass", weight, unit.MassKind, "g"); errs[1] == nil {
			mass, errs[1] = instrument.Weighed(m)
		}
		part := answer(ballMass, mass, 1, errs[1], setting("mass", mass.Median, ballMass))
		if g.Head != "" && part.Head != "" {
			g.Head += ", "
		}
		g.Head, g.Sets = g.Head+part.Head, append(g.Sets, part.Sets...)
	}
	if err := errors.Join(errs[:]...); err != nil {
		return refused(err), nil
	}
	var facts []Fact
	for _, n := range gear.BallLimits {
		var fits []instrument.Fit
		if size != "" {
			fits = append(fits, instrument.FitOf(across, n.Is.Diameter))
		}
		if weight != "" && n.Is.Mass.To > 0 {
			fits = append(fits, instrument.FitOf(mass, n.Is.Mass))
		}
		facts = append(facts, Fact{limits(s, n.Is), fitting(n.Label, fits)})
	}
	return g, facts
}

// ballSize returns the display of a ball's diameter, with as many decimals as the
// standards give.
func ballSize(s *scenario.Scenario) scenario.Display {
	if s.Units == "cm" {
		return scenario.Display{Quantity: unit.LengthKind, Unit: "mm", Decimals: 2}
	}
	return scenario.Display{Quantity: unit.LengthKind, Unit: "in", Decimals: 3}
}

// ballMass is the display of a ball's mass.
var ballMass = scenario.Display{Quantity: unit.MassKind, Unit: "g", Decimals: 1}

// limits returns the limits of a standard in words. Mass is left out when the
// standard has no limit for it.
func limits(s *scenario.Scenario, l gear.Limits) string {
	d := ballSize(s)
	text := d.Number(float64(l.Diameter.From)) + " to " + d.Format(float64(l.Diameter.To))
	if l.Mass.To > 0 {
		text += ", " + ballMass.Number(float64(l.Mass.From)) + " to " + ballMass.Format(float64(l.Mass.To))
	}
	return text
}

func diameter(text string, round bool) (stat.Estimate[unit.Length], error) {
	x, err := quantity[unit.Length]("size", text, unit.LengthKind, "mm")
	if err != nil {
		return stat.Estimate[unit.Length]{}, err
	}
	return instrument.Diameter(x, round)
}

// fitting returns the worst of the fits to a governing body's limits, in words.
func fitting(body string, fits []instrument.Fit) string {
	worst := instrument.Within
	for _, f := range fits {
		if f == instrument.Outside || worst == instrument.Within {
			worst = f
		}
	}
	switch {
	case len(fits) == 0:
		return "The " + body + " sets no mass"
	case worst == instrument.Within:
		return "within the limits of the " + body
	case worst == instrument.Outside:
		return "outside the limits of the " + body
	}
	return "too close to call for the limits of the " + body
}
