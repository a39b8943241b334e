package show

import (
	"math"

	"pivotbench/core/hop"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
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
func Hardest(s *scenario.Scenario, r *shot.Reading) unit.Speed {
	if s.ByStroke || r.CueSpeed.Err() != nil {
		return hop.Hardest
	}
	return hop.Hardest * r.BallSpeed.Value / r.CueSpeed.Value
}

// HopColumns are the columns of the map of hops: what becomes of the shot at
// every elevation and speed, down before the target or not.
func HopColumns(s *scenario.Scenario) []hop.Column {
	const step = 1.25 * unit.Degree
	var elevations []unit.Angle
	for a := unit.Angle(0); a < hop.Steep+step/2; a += step {
		elevations = append(elevations, a)
	}
	sh := s.Shot()
	return hop.Map(&sh, elevations, Fastest(s), s.Dist)
}

// SlowestHop sets the lowest speed that clears, of the ball or the cue as the
// shot's own is, up to the next round value.
func SlowestHop(s *scenario.Scenario) (app.Setting, error) {
	sh := s.Shot()
	v, err := hop.LeastSpeed(&sh)
	key := "speed"
	if s.ByStroke {
		key = "stroke"
	}
	name, step := "mph", 0.1*float64(unit.MilePerHour)
	if s.Units == "cm" {
		name, step = "m/s", 0.05
	}
	return app.Setting{Key: key, Text: roundedUp(float64(v), step, unit.SpeedKind, name)}, err
}

// FlattestHop sets the lowest elevation that clears, up to the next round
// value.
func FlattestHop(s *scenario.Scenario) (app.Setting, error) {
	sh := s.Shot()
	a, err := hop.LeastElevation(&sh)
	return app.Setting{Key: "elev", Text: roundedUp(float64(a), 0.5*float64(unit.Degree), unit.AngleKind, "deg")}, err
}

func roundedUp(v, step float64, kind unit.Kind, name string) string {
	u, _ := kind.Find(name)
	return unit.Exact(whole(math.Ceil(v/step-1e-9)*step/u.SI)*u.SI, kind, name)
}
