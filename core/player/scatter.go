package player

import (
	"math"

	"pivotbench/core/margin"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// Errors returns how far the player strays in each way on a shot, to say how often his
// shots succeed and which cue suits him. on has what is not known of him: the scatter of
// his elevation, and of his dialling. His strokes tell the spread of the ball's direction
// as a whole, so the aim gets what the other errors leave of it, which may be nothing. The
// error says why the shot does not arrive.
func (p *Player) Errors(s *shot.Shot, on margin.Scatter) (margin.Scatter, error) {
	on.Tip, on.Speed, on.Bridge, on.Aim = p.Scatter.Tip.Best(), p.Scatter.Speed.Best(), p.Scatter.Bridge.Best(), p.Scatter.Aim.Best()
	if !measured(p.Spread) {
		return on, nil
	}
	rest := on
	rest.Aim = 0
	other, err := margin.Spread(s, rest)
	if err != nil {
		return on, err
	}
	whole, part := float64(p.Spread.Best()), float64(other/s.Dist)
	on.Aim = unit.Angle(math.Sqrt(max(0, whole*whole-part*part)))
	return on, nil
}
