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
	Event  Event       // the latest event up to then
	Stick  unit.Length // distance of the tip along the cue's line since it met the ball; negative before
	Cue    Ball
	Object *Ball // nil until it is met; positions are relative to its own start
}

// A Ball is the state of one ball at one moment.
type Ball struct {
	motion.State
	Phase  motion.Phase
	Turned unit.Angle // about the vertical since the tip met the cue ball, positive to the right
	Left   bool       // it is no longer followed: it stopped, dropped, or met something outside the model
}

// At returns the shot at a moment, which is limited to the timeline.
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

// along returns a ball on a path that begins at one moment and is followed until another.
func along(p *motion.Path, begin, now, end unit.Span) Ball {
	left := now >= end
	since := min(now, end) - begin
	state, phase := p.At(since)
	return Ball{state, phase, p.Turned(since), left}
}

// A stick is the motion of a cue along its line.
type stick struct {
	speed, after  unit.Speed // speed before the impact, and after it
	back, through unit.Length
}

// stroke returns the motion of the cue: a constant speed up to the impact, then what the
// impulse leaves of it, V − (m/M)(v·d̂), decreasing uniformly to zero. The model does not
// know how a hand really accelerates and stops the cue.
func stroke(s *shot.Shot, res *shot.Result) stick {
	given := float64(s.Ball.Mass/s.Cue.Mass) * res.Launch.Vel.Dot(s.Line(res).Direction())
	speed := res.Reading.CueSpeed.Value
	return stick{
		speed: speed, after: max(0, speed-unit.Speed(given)),
		back: drawn * s.Hands.Bridge, through: through * s.Hands.Bridge,
	}
}

// from returns when the cue begins to move.
func (k *stick) from() unit.Span { return -unit.Span(float64(k.back) / float64(k.speed)) }

// at returns the position of the tip along its line.
func (k *stick) at(now unit.Span) unit.Length {
	if now <= 0 {
		return unit.Length(float64(k.speed) * float64(now))
	}
	if k.after == 0 {
		return 0
	}
	// Uniformly slowed, it takes twice as long as at its first speed.
	part := math.Min(1, float64(now)*float64(k.after)/(2*float64(k.through)))
	return k.through * unit.Length(part*(2-part))
}
