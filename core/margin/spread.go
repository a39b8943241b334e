package margin

import (
	"math"

	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// Spread returns the standard deviation of the sideways arrival at the target
// under a player's scatter, to first order: the slope of each input times its
// scatter, added in quadrature. An error says why the shot does not arrive.
func Spread(s *shot.Shot, sc Scatter) (unit.Length, error) {
	sum := float64(s.Dist*unit.Length(sc.Aim)) * float64(s.Dist*unit.Length(sc.Aim))
	for _, part := range []struct {
		in   Input
		size float64
	}{
		{TipStray, float64(sc.Tip)}, {TipSide, float64(sc.Dial)}, {TipHeight, float64(sc.Tip)}, {Speed, sc.Speed * float64(s.Speed)},
		{Bridge, float64(sc.Bridge)}, {Elevation, float64(sc.Elev)},
	} {
		slope, err := Slope(s, part.in)
		if err != nil {
			return 0, err
		}
		sum += slope * part.size * slope * part.size
	}
	return unit.Length(math.Sqrt(sum)), nil
}
