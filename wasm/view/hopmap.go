package view

import (
	"math"

	"pivotbench/core/hop"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
)

// Fastest is how fast the map of hops goes: as a rule a hard break, and as far
// as a link may where the stroke is faster than that.
func Fastest(s *scenario.Scenario) unit.Speed {
	if s.Speed > 30*unit.MilePerHour {
		return hop.Most
	}
	return 30 * unit.MilePerHour
}

// Hardest is the stroke that is about as much as people do, as the speed of
// the ball or of the cue as the shot's own is.
func Hardest(s *scenario.Scenario) unit.Speed {
	sh := s.Shot()
	hit, _, _, err := sh.Stroke()
	if s.ByStroke || err != nil {
		return hop.Hardest
	}
	return hit.BallSpeed(hop.Hardest)
}

// HopColumns are the columns of the map of hops: what becomes of the shot at
// every elevation and speed, down before the target or not, for as long as tip
// and bed may be in touch.
func HopColumns(s *scenario.Scenario, contacts *Contacts) []hop.Column {
	const step = 1.7 * unit.Degree
	var elevations []unit.Angle
	for a := unit.Angle(0); a < hop.Steep+step/2; a += step {
		elevations = append(elevations, a)
	}
	sh := s.Shot()
	return hop.Map(&sh, contacts.forMap(), elevations, Fastest(s), s.Dist)
}

// SlowestHop sets the lowest speed that clears for certain, of the ball or the
// cue as the shot's own is, up to the next round value.
func SlowestHop(s *scenario.Scenario, contacts *Contacts) (app.Setting, error) {
	sh := s.Shot()
	l := hop.LeastSpeeds(&sh, contacts.ratios())
	key := "speed"
	if s.ByStroke {
		key = "stroke"
	}
	return app.Setting{Key: key, Text: nextUp(s, key, float64(l.Will))}, l.WillErr
}

// FlattestHop sets the lowest elevation that clears for certain, up to the next
// round value.
func FlattestHop(s *scenario.Scenario, contacts *Contacts) (app.Setting, error) {
	sh := s.Shot()
	l := hop.LeastElevations(&sh, contacts.forMap())
	return app.Setting{Key: "elev", Text: nextUp(s, "elev", float64(l.Will))}, l.WillErr
}

// nextUp is the next step of a key from a value up, as text.
func nextUp(s *scenario.Scenario, key string, v float64) string {
	k := scenario.Find(key)
	return k.Written(k.Stepped(v, s.Units, math.Ceil), s.Units)
}
