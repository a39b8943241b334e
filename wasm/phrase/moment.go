package phrase

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/replay"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
)

var doing = [...]string{motion.Fly: "flies", motion.Slide: "slides", motion.Roll: "rolls", motion.Rest: "at rest"}

// happening has the words for each event.
var happening = map[replay.Kind]string{
	replay.Forward: "the cue moves forward", replay.Tip: "the tip hits the ball", replay.Lands: "the ball lands",
	replay.Rolls: "the ball starts to roll", replay.Gate: "the ball passes the blockers",
	replay.TouchesLeft: "the ball hits the left blocker, and the model stops here", replay.TouchesRight: "the ball hits the right blocker, and the model stops here",
	replay.Target: "the ball passes the target", replay.Object: "the balls meet", replay.Stops: "the cue ball stops",
	replay.Cushion: "the ball is at a cushion, and the model stops here", replay.ObjectDrops: "the object ball is pocketed",
	replay.ObjectStops: "the object ball stops", replay.ObjectCushion: "the object ball is at a cushion, and the model stops here",
}

// PlayButton returns the label of the button that plays a shot or pauses it.
func PlayButton(running bool) string {
	if running {
		return "Pause"
	}
	return "Play"
}

// Pace returns how fast a ball is and what it is doing: 6.1 mph, slides.
func Pace(s *scenario.Scenario, b *replay.Ball) string {
	return scenario.DisplayOf(unit.SpeedKind, s.Units).Format(b.Vel.Norm()) + ", " + doing[b.Phase]
}

// Time returns a moment, in seconds since the tip met the ball.
func Time(t unit.Span) string {
	return scenario.Display{Quantity: unit.SpanKind, Unit: "s", Decimals: 2}.Format(float64(t))
}

// Moment returns a moment of a shot in one line: the time, the cue ball's speed, what it
// is doing, its sidespin in turns per second, its height, and the latest event.
func Moment(s *scenario.Scenario, f *replay.Frame) string {
	text := Time(f.Time)
	if f.Time > 0 {
		text += ", " + Pace(s, &f.Cue) + ", " + Sidespin(f.Cue.Spin.Z)
		if f.Cue.Pos.Z > 0 {
			text += ", " + Small(s, f.Cue.Pos.Z) + " up"
		}
	}
	return text + ": " + happening[f.Event.Kind]
}

// Sidespin returns a spin about the vertical, given in rad/s, as the english that causes
// it.
func Sidespin(rate float64) string {
	turns := scenario.Display{Quantity: unit.Ratio, Decimals: 1}
	text := turns.Format(math.Abs(rate) / (2 * math.Pi))
	switch {
	case text == turns.Format(0):
		return "no sidespin"
	case rate > 0:
		return text + " turns/s right"
	}
	return text + " turns/s left"
}
