package show

import (
	"errors"
	"math"
	"strconv"

	"pivotbench/core/gauge"
	"pivotbench/core/gear"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
)

// Ball is a ball's diameter, by a caliper or a tape round it, and its mass,
// against the standards. Either may be empty.
func Ball(s *scenario.Scenario, size string, round bool, weight string) (Gauged, []Fact) {
	if size == "" && weight == "" {
		return Gauged{Note: "Enter the size, the weight, or both."}, nil
	}
	var g Gauged
	var across gauge.Estimate[unit.Length]
	var mass gauge.Estimate[unit.Mass]
	var errs [2]error
	if size != "" {
		across, errs[0] = diameter(size, round)
		part := answer(scenario.Display{Quantity: unit.LengthKind, Unit: "mm", Decimals: 2}, across, errs[0], setting("diam", across.Value, unit.LengthKind, "mm", 2))
		g.Head, g.Sets = part.Head, part.Sets
	}
	if weight != "" {
		var m unit.Mass
		if m, errs[1] = quantity[unit.Mass]("weight", weight, unit.MassKind, "g"); errs[1] == nil {
			mass, errs[1] = gauge.Weighed(m)
		}
		part := answer(scenario.Display{Quantity: unit.MassKind, Unit: "g", Decimals: 1}, mass, errs[1], setting("mass", mass.Value, unit.MassKind, "g", 1))
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
		var fits []gauge.Fit
		if size != "" {
			fits = append(fits, gauge.FitOf(across, n.Is.Diameter))
		}
		if weight != "" && n.Is.Mass.To > 0 {
			fits = append(fits, gauge.FitOf(mass, n.Is.Mass))
		}
		facts = append(facts, Fact{limits(n.Is), fitting(n.Label, fits)})
	}
	return g, facts
}

// limits are a standard's, in its figures.
func limits(l gear.Limits) string {
	text := number(float64(l.Diameter.From/unit.Millimetre)) + " to " + number(float64(l.Diameter.To/unit.Millimetre)) + " mm"
	if l.Mass.To > 0 {
		text += ", " + number(float64(l.Mass.From/unit.Gram)) + " to " + number(float64(l.Mass.To/unit.Gram)) + " g"
	}
	return text
}

func number(v float64) string {
	return strconv.FormatFloat(math.Round(100*v)/100, 'f', -1, 64)
}

func diameter(text string, round bool) (gauge.Estimate[unit.Length], error) {
	x, err := quantity[unit.Length]("size", text, unit.LengthKind, "mm")
	if err != nil {
		return gauge.Estimate[unit.Length]{}, err
	}
	return gauge.Diameter(x, round)
}

// fitting is the worst of some fits to a body's limits, in words.
func fitting(body string, fits []gauge.Fit) string {
	worst := gauge.Within
	for _, f := range fits {
		if f == gauge.Outside || worst == gauge.Within {
			worst = f
		}
	}
	switch {
	case len(fits) == 0:
		return body + " names no weight"
	case worst == gauge.Within:
		return "within " + body + " limits"
	case worst == gauge.Outside:
		return "not within " + body + " limits"
	}
	return "can't tell if within " + body + " limits: one is inside the reading's interval"
}
