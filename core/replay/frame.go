package replay

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Frame is a shot at one moment.
type Frame struct {
	Time   unit.Span
	Event  Event       // the latest by then
	Stick  unit.Length // how far the tip has come along the cue's line since it met the ball; negative before
	Cue    Ball
	Object *Ball // once it has been met; places are relative to its own start
}

// A Ball is one ball at a moment.
type Ball struct {
	motion.State
	Phase  motion.Phase
	Turned unit.Angle // about the upright since the tip met the cue ball, seen from above, positive to the right
	Left   bool       // it is followed no further: it stopped, dropped, or met what ends the model
}

// At is the shot at a moment, which is brought within the timeline.
func (t *Timeline) At(now unit.Span) Frame {
	now = t.Clamp(now)
	f := Frame{Time: now, Event: t.Reached(now), Stick: t.stick.at(now), Cue: along(&t.res.Path, 0, now, t.end)}
	if t.pot == nil || now < t.end {
		return f
	}
	f.Cue = along(t.after, t.end, now, t.gone)
	f.Cue.Turned += t.res.Path.Turned(t.end)
	object := along(&t.pot.Object, t.end, now, t.object)
	f.Object = &object
	return f
}

// along is a ball on a path that begins at a moment and is followed until an
// end.
func along(p *motion.Path, begin, now, end unit.Span) Ball {
	left := now >= end
	since := min(now, end) - begin
	state, phase := p.At(since)
	return Ball{state, phase, p.Turned(since), left}
}

// stick is a cue's way along its line.
type stick struct {
	speed, after  unit.Speed // as it meets the ball, and as the ball leaves
	back, through unit.Length
}

// stroke is the cue's way: at an even pace to the ball; what the impulse along
// it leaves of its speed, V − (m/M)(v·d̂), then fades evenly. How the hand
// really brings a cue forward and stops it the model does not know.
func stroke(s *shot.Shot, res *shot.Result) stick {
	given := float64(s.Ball.Mass/s.Cue.Mass) * res.Launch.Vel.Dot(s.Line(res).Direction())
	speed := res.Reading.CueSpeed.Value
	return stick{
		speed: speed, after: max(0, speed-unit.Speed(given)),
		back: drawn * s.Hands.Bridge, through: through * s.Hands.Bridge,
	}
}

// from is when the cue sets out.
func (k *stick) from() unit.Span { return -unit.Span(float64(k.back) / float64(k.speed)) }

// at is how far the tip is along its line.
func (k *stick) at(now unit.Span) unit.Length {
	if now <= 0 {
		return unit.Length(float64(k.speed) * float64(now))
	}
	if k.after == 0 {
		return 0
	}
	// Fading evenly, it takes twice as long as at its first pace.
	part := math.Min(1, float64(now)*float64(k.after)/(2*float64(k.through)))
	return k.through * unit.Length(part*(2-part))
}
