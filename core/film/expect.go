package film

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// An Expect is what is expected of a stroke before its film is read, each with a standard
// deviation. The slip is the velocity of the ball's lowest point as the ball leaves the tip,
// as a share of the ball's speed.
type Expect struct {
	Ahead, AheadOff   float64 // slip ahead: 1 for a centre hit, 0 when the ball rolls at once, more for draw
	Across, AcrossOff float64 // slip to the right, which bends the path to the left
	Slide, SlideOff   float64 // sliding friction; the second as a share
	Roll, RollOff     float64 // rolling resistance; the second as a share
	Rise, RiseOff     float64 // speed upward, as a share of the other: a raised cue drives the ball into the bed, which throws it up
	Rebound           float64 // of the table, as a share of the speed downward
}

// Centre expects any stroke near the ball's centre on a usual cloth: common practice, no
// source.
var Centre = Expect{Ahead: 1, AheadOff: 0.5, Across: 0, AcrossOff: 0.08, Slide: 0.2, SlideOff: 0.2, Roll: 0.011, RollOff: 0.35,
	Rise: 0.03, RiseOff: 0.03, Rebound: 0.5}

// How far tip and butt are from where they were meant to be, by standard deviation: the tip
// in ball radii, and the butt's elevation. Common practice, no source.
const (
	tipOff   = 0.05
	raiseOff = 1 * unit.Degree
	leastOff = 0.003 // of any share of the speed
)

// ExpectOf expects a shot as it is meant. A shot that can't be played leaves Centre.
func ExpectOf(s *shot.Shot) Expect {
	e := Centre
	var path motion.Path
	if s.Send(&path) != nil {
		return e
	}
	start, _ := path.At(0)
	speed := start.Vel.Plan().Norm()
	if speed == 0 {
		return e
	}
	r := float64(s.Ball.Radius)
	slip := vec.V{X: start.Vel.X - r*start.Spin.Y, Y: start.Vel.Y + r*start.Spin.X}
	ahead := start.Vel.Plan().Mul(1 / speed)
	e.Ahead = slip.Dot(ahead) / speed
	e.Across = slip.Dot(vec.V{X: ahead.Y, Y: -ahead.X}) / speed
	// A ball hit off its centre by a share of its radius spins at 2.5 times that share, in units
	// of its speed (Coriolis). The slip across is that of sidespin times the sine of the
	// elevation.
	e.AheadOff = 2.5 * tipOff * 1.2
	e.AcrossOff = math.Hypot(leastOff, 2.5*math.Hypot(s.Contact.Side*float64(raiseOff), tipOff*math.Sin(float64(s.Elevation))))
	e.Slide, e.Roll, e.Rebound = s.Cloth.Slide, s.Cloth.Roll, s.Cloth.Rebound
	e.Rise, e.RiseOff = start.Vel.Z/speed, math.Hypot(leastOff, e.Rebound*float64(raiseOff))
	return e
}
