package instrument

import (
	"errors"
	"math"

	"pivotbench/core/gear"
	"pivotbench/core/stat"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// A Way is how a ruler reads a tip's offset from the middle of the ball.
type Way int

// The ways of reading an offset.
const (
	// Across is the distance of a chalk mark as seen from where the cue came, with
	// the ruler in front of the ball.
	Across Way = iota
	// Straight is the straight distance of the mark from the middle spot, point to
	// point.
	Straight
	// Over is its distance over the surface of the ball, by a tape or a strip of
	// paper.
	Over
	// Axis is where the middle of the tip is aimed, such as the edge of a
	// ball's stripe: the stripe's half-width.
	Axis
	// Edge is where the outer edge of the tip is aimed.
	Edge
)

// ErrInside is the error of a tip that, lined up by its edge, has its middle
// beyond the middle of the ball.
var ErrInside = errors.New("the tip is wider than that, so its middle is on the other side of the ball: check the side")

// Offset returns how far from the middle of the ball the tip touches it, in ball
// radii, for a ruler's reading x. With R the ball's radius, r the dome's and w
// the tip's width:
//
//	Across    ρ = x/R
//	Straight  ρ = sin(2 asin(x/2R))
//	Over      ρ = sin(x/R)
//	Axis      ρ = x/(R + r)
//	Edge      ρ = (x − w/2)/(R + r)
//
// A dome meets the ball short of the cue's axis: hence R + r. Errors:
// ErrLength, ErrInside, strike.ErrOffBall, strike.ErrOffTip.
func Offset(way Way, x unit.Length, ball gear.Ball, tip gear.Tip) (float64, error) {
	if !(x >= 0 && x <= longest) {
		return 0, ErrLength
	}
	perRadius := float64(x / ball.Radius)
	var rho float64
	switch way {
	case Across:
		rho = perRadius
	case Straight:
		if perRadius >= math.Sqrt2 {
			return 0, strike.ErrOffBall
		}
		rho = math.Sin(2 * math.Asin(perRadius/2))
	case Over:
		if perRadius >= math.Pi/2 {
			return 0, strike.ErrOffBall
		}
		rho = math.Sin(perRadius)
	case Axis:
		rho = float64(x / (ball.Radius + tip.Dome))
	case Edge:
		if x < tip.Width/2 {
			return 0, ErrInside
		}
		rho = float64((x - tip.Width/2) / (ball.Radius + tip.Dome))
	}
	return rho, strike.Contact{Side: rho}.Check(tip)
}

// OffsetEstimate returns the offset with the interval that the ruler leaves, and
// the eye where the tip is lined up. The interval does not go below 0 nor off the
// tip.
func OffsetEstimate(way Way, x unit.Length, ball gear.Ball, tip gear.Tip) (stat.Estimate[float64], error) {
	rho, err := Offset(way, x, ball, tip)
	if err != nil {
		return stat.Estimate[float64]{}, err
	}
	sd := ruler
	if way == Axis || way == Edge {
		sd = unit.Length(math.Hypot(float64(ruler), float64(aimed)))
	}
	read := pool([]reading{{float64(x), float64(sd)}})
	from, err := Offset(way, unit.Length(read.From), ball, tip)
	if err != nil {
		from = 0
	}
	to, err := Offset(way, unit.Length(read.To), ball, tip)
	if err != nil {
		to = float64(tip.Width / 2 / tip.Dome) // where the tip ends
	}
	return stat.Estimate[float64]{Median: rho, Interval: stat.Interval[float64]{From: from, To: min(to, 1)}}, nil
}
