package view

import (
	"math"

	"pivotbench/core/hop"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// HopMapName describes the map, for those who can't see it.
const HopMapName = "Speeds and elevations that clear the blockers, with this stroke marked"

// NoHop says why there is no lowest speed or elevation to use.
func NoHop(err error) string { return phrase.Upper(err.Error()) + "." }

// NotNoted says why something typed can't be noted.
func NotNoted(err error) string { return "Not noted: " + err.Error() + "." }

// Fastest returns the highest speed of the map of hops. It is the speed of a hard
// break, or hop.Most when the stroke is faster than that.
func Fastest(s *scenario.Scenario) unit.Speed {
	if s.Speed > 30*unit.MilePerHour {
		return hop.Most
	}
	return 30 * unit.MilePerHour
}

// Hardest returns the speed of about the hardest stroke that people play. It is the
// speed of the cue when the scenario sets the stroke, otherwise of the ball.
func Hardest(s *scenario.Scenario) unit.Speed {
	sh := s.Shot()
	hit, _, _, err := sh.Stroke()
	if s.ByStroke || err != nil {
		return hop.Hardest
	}
	return hit.BallSpeed(hop.Hardest)
}

// HopColumns returns the columns of the map of hops. The map gives the result of the
// shot at every elevation and speed, and whether the ball lands before the target,
// over the range of possible contact times of tip and bed.
func HopColumns(s *scenario.Scenario, contacts *Contacts) []hop.Column {
	const step = 1.7 * unit.Degree
	var elevations []unit.Angle
	for a := unit.Angle(0); a < hop.Steep+step/2; a += step {
		elevations = append(elevations, a)
	}
	sh := s.Shot()
	return hop.Map(&sh, contacts.forMap(), elevations, Fastest(s), s.Dist)
}

// SlowestHop returns the setting of the lowest speed that certainly clears, rounded
// up to the next step. It is the speed of the cue when the scenario sets the stroke,
// otherwise of the ball. The error says why no speed certainly clears.
func SlowestHop(s *scenario.Scenario, contacts *Contacts) (app.Setting, error) {
	sh := s.Shot()
	l := hop.LeastSpeeds(&sh, contacts.ratios())
	key := "speed"
	if s.ByStroke {
		key = "stroke"
	}
	return app.Setting{Key: key, Text: nextUp(s, key, float64(l.Will))}, l.WillErr
}

// FlattestHop returns the setting of the lowest elevation that certainly clears,
// rounded up to the next step. The error says why no elevation certainly clears.
func FlattestHop(s *scenario.Scenario, contacts *Contacts) (app.Setting, error) {
	sh := s.Shot()
	l := hop.LeastElevations(&sh, contacts.forMap())
	return app.Setting{Key: "elev", Text: nextUp(s, "elev", float64(l.Will))}, l.WillErr
}

// nextUp returns a value rounded up to the next step of a key, as text.
func nextUp(s *scenario.Scenario, key string, v float64) string {
	k := scenario.Find(key)
	return k.Written(k.Stepped(v, s.Units, math.Ceil), s.Units)
}
