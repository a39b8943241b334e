package film

import "pivotbench/core/shot"

// Layout returns the balls of a shot at their places, without marks: the cue ball, a
// target ball straight ahead, and the blockers if there are any.
func Layout(s *shot.Shot) []Ball {
	balls := []Ball{{Role: Cue}, {Role: Target, At: Place{Y: s.Dist}}}
	if s.Gate.Dist > 0 && s.Gate.Gap > 0 {
		side := s.Gate.Gap/2 + s.Ball.Radius
		balls = append(balls, Ball{Role: Left, At: Place{-side, s.Gate.Dist}}, Ball{Role: Right, At: Place{side, s.Gate.Dist}})
	}
	return balls
}
