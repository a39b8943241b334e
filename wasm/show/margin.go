package show

import (
	"pivotbench/core/margin"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/words"
)

// effects are the changes shown, of a size a player can picture: in SI, for
// inches and for centimetres.
var effects = []struct {
	in         margin.Input
	inch, cm   float64
	inchs, cms string
}{
	{margin.Bridge, float64(unit.Inch), 0.02, "1 in more bridge", "2 cm more bridge"},
	{margin.TipSide, 0.001, 0.001, "tip 1 mm to the right", "tip 1 mm to the right"},
	{margin.TipHeight, 0.001, 0.001, "tip 1 mm higher", "tip 1 mm higher"},
	{margin.Speed, float64(unit.MilePerHour), 0.5, "1 mph faster", "0.5 m/s faster"},
	{margin.Elevation, float64(unit.Degree), float64(unit.Degree), "butt 1° higher", "butt 1° higher"},
	{margin.Pivot, float64(unit.Inch), 0.02, "1 in more pivot length", "2 cm more pivot length"},
}

// Effects are how the arrival at the target moves with each input.
func Effects(s *scenario.Scenario) []Fact {
	sh := s.Shot()
	out := make([]Fact, len(effects))
	for i, e := range effects {
		by, name := e.inch, e.inchs
		if s.Units == "cm" {
			by, name = e.cm, e.cms
		}
		slope, err := margin.Slope(&sh, e.in)
		if err != nil {
			out[i] = Fact{name, err.Error()}
			continue
		}
		out[i] = Fact{name, words.Sideways(s, unit.Length(slope*by))}
	}
	return out
}

// Chances are the shot's rates of success under its scatter.
func Chances(s *scenario.Scenario, m *margin.Sampler, object bool) []Fact {
	sh := s.Shot()
	var out []Fact
	add := func(name string, goal margin.Goal) {
		r := m.Success(&sh, s.Scatter, goal)
		out = append(out, Fact{name, rateWords(r)})
	}
	if s.Gate > 0 {
		add("clean through the gate", margin.ThroughGate)
	}
	if object {
		add("object ball pocketed", margin.Pocketed())
	}
	add("within a quarter ball of the target", margin.OnTarget(s.GearBall().Radius/2))
	return out
}

// rateWords give a share with its standard error.
func rateWords(r margin.Rate) string {
	return unit.Round(100*r.Share, unit.Ratio, "", 1) + " % ± " + unit.Round(100*r.Err, unit.Ratio, "", 2) + " %"
}

// Potting says what becomes of the object ball of a shot that is sent on its
// way.
func Potting(s *scenario.Scenario, res *shot.Result) string {
	sh := s.Shot()
	var pot shot.Pot
	if err := sh.Sink(&res.Path, &pot); err != nil {
		return err.Error()
	}
	if pot.Missed != nil {
		return pot.Missed.Error()
	}
	said := "object ball in"
	if !pot.In(&sh) {
		said = "object ball misses the pocket"
	}
	return said + ": passes its middle " + words.Sideways(s, pot.Miss) + ", where " + words.Small(s, float64(sh.Forgiven())) + " is forgiven; throw " + words.Turned(pot.Throw)
}
