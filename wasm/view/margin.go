package view

import (
	"math"
	"strconv"

	"pivotbench/core/margin"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

// effects are the changes shown, each of a size that a player can picture. inch and
// cm are the size in SI units for readers of inches and of centimetres.
var effects = []struct {
	in         margin.Input
	inch, cm   float64
	inchs, cms string
}{
	{margin.Bridge, float64(unit.Inch), 0.02, "bridge 1 in longer", "bridge 2 cm longer"},
	{margin.TipSide, 0.001, 0.001, "tip set 1 mm to the right", "tip set 1 mm to the right"},
	{margin.TipStray, 0.001, 0.001, "tip strays 1 mm to the right", "tip strays 1 mm to the right"},
	{margin.TipHeight, 0.001, 0.001, "tip 1 mm higher", "tip 1 mm higher"},
	{margin.Speed, float64(unit.MilePerHour), 0.5, "ball 1 mph faster", "ball 0.5 m/s faster"},
	{margin.Elevation, float64(unit.Degree), float64(unit.Degree), "butt 1° higher", "butt 1° higher"},
	{margin.Pivot, float64(unit.Inch), 0.02, "pivot length 1 in longer", "pivot length 2 cm longer"},
}

// Effects returns how far the arrival at the target moves for a change in each
// input.
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
		out[i] = Fact{name, phrase.Sideways(s, unit.Length(slope*by))}
	}
	return out
}

// Chances returns the success rates of the shot under its scatter. object adds the
// rate of pocketing the object ball.
func Chances(s *scenario.Scenario, m *margin.Sampler, object bool) []Fact {
	sh := s.Shot()
	var out []Fact
	add := func(name string, goal margin.Goal) {
		r := m.Success(&sh, s.Scatter, goal)
		out = append(out, Fact{name, rateWords(r.Share)})
	}
	if s.Gate > 0 {
		add("passes the blockers clean", margin.ThroughGate)
	}
	if object {
		add("object ball pocketed", margin.Pocketed())
	}
	add("arrives within a quarter ball of the target", margin.OnTarget(s.GearBall().Radius/2))
	return out
}

// rateWords returns a success rate in words. A rate near 0 or 1 is given only as a
// bound, because the number of simulated strokes is finite.
func rateWords(share float64) string {
	switch {
	case share >= 0.995:
		return "over 99 %"
	case share < 0.005:
		return "under 1 %"
	}
	return phrase.Percent(share)
}

// ChancesNote says how many strokes the rates are counted from, and how accurate
// that makes them: the half-width of the 90 % interval of a binomial share of one
// half, where it is widest.
func ChancesNote(strokes int) string {
	const half = 0.5
	return "Counted over " + strconv.Itoa(strokes) + " strokes with your errors; good to about " +
		phrase.Percent(max(0.01, stat.Reach90*half/math.Sqrt(float64(strokes)))) + "."
}

// Potting returns in words where the object ball goes in a shot that launched.
func Potting(s *scenario.Scenario, res *shot.Result) string {
	sh := s.Shot()
	var pot shot.Pot
	if err := sh.Sink(&res.Path, &pot); err != nil {
		return phrase.Upper(err.Error())
	}
	if pot.Missed != nil {
		return phrase.Upper(pot.Missed.Error())
	}
	said := "Object ball pocketed"
	if !pot.In(&sh) {
		said = "Object ball misses the pocket"
	}
	return said + ", " + offMiddle(s, pot.Miss) + "; pocket allows " + phrase.Small(s, float64(sh.Forgiven())) + "; throw " + phrase.Turned(pot.Throw)
}

// offMiddle returns how far the object ball passes the middle of the pocket, in words.
func offMiddle(s *scenario.Scenario, x unit.Length) string {
	text := phrase.Sideways(s, x)
	if text == phrase.Sideways(s, 0) {
		return "in the middle"
	}
	return text + " of the middle"
}
