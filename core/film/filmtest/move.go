package filmtest

import (
	"math"

	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// rolls is the deceleration of balls after they have met, in m/s².
const rolls = 0.1

// meet works out which ball the cue ball meets first, when, and how both go on: the
// velocity along the line of centres changes over.
func (f *Film) meet() {
	s := f.s
	stop := math.Min(float64(s.Path.Stop()), s.Length)
	for t := 0.0; t < stop; t += 1e-4 {
		now, _ := s.Path.At(unit.Span(t))
		for i, b := range s.Balls {
			d := b.At.Sub(now.Pos)
			if d.Norm() > 2*s.Radius {
				continue
			}
			n := d.Mul(1 / d.Norm())
			along := n.Mul(now.Vel.Dot(n))
			f.hit, f.hitAt, f.hitPlace = i, t, now.Pos
			f.after = [2]vec.V{now.Vel.Sub(along).Mul(0.9), along.Mul(0.9)}
			return
		}
	}
}

// gone returns the way of a rolling ball with a velocity after a time.
func gone(v vec.V, t float64) vec.V {
	speed := v.Norm()
	if speed == 0 {
		return v
	}
	t = math.Min(t, speed/rolls)
	return v.Mul(t - rolls*t*t/(2*speed))
}

// A mover is a ball that moves at some time.
type mover struct {
	luma float64
	at   func(t float64) (vec.V, bool)
	dots bool
}

// movers returns the balls that move by the end of a frame, the furthest first: the cue
// ball, and the one that it has met.
func (f *Film) movers(t float64) []mover {
	s := f.s
	late := f.since(t + s.Exposure + s.Readout)
	if late <= 0 && !s.Hand && !f.lifted(t) && f.spot(t).Norm() == 0 {
		return nil
	}
	out := []mover{{luma: s.Cue, at: f.cueBall, dots: s.Dots}}
	if f.hit < 0 || late <= f.hitAt {
		return out
	}
	b := s.Balls[f.hit]
	out = append(out, mover{luma: b.Luma, at: func(t float64) (vec.V, bool) {
		t = f.since(t)
		if t <= f.hitAt {
			return b.At, true
		}
		return b.At.Add(gone(f.after[1], t-f.hitAt)), true
	}})
	cue, _ := out[0].at(t)
	other, _ := out[1].at(t)
	if cue.Sub(s.Eye).Norm() < other.Sub(s.Eye).Norm() {
		out[0], out[1] = out[1], out[0]
	}
	return out
}

// lifted reports whether somebody has picked the cue ball up.
func (f *Film) lifted(t float64) bool {
	again := f.s.Restart
	return again > 0 && t > again-1.2 && t < again-0.8
}

// spot returns where the cue ball was put last.
func (f *Film) spot(t float64) vec.V {
	if f.s.Restart > 0 && t >= f.s.Restart-0.8 {
		return f.s.Back
	}
	return vec.V{}
}

// since returns the time since the last stroke.
func (f *Film) since(t float64) float64 {
	if f.s.Restart > 0 && t >= f.s.Restart-0.8 {
		return t - f.s.Restart
	}
	return t - f.s.Start
}

func (f *Film) cueBall(t float64) (vec.V, bool) {
	s := f.s
	if f.lifted(t) {
		return vec.V{}, false
	}
	spot := f.spot(t)
	t = f.since(t)
	switch {
	case t <= 0:
		return spot, true
	case f.hit < 0 || t <= f.hitAt:
		now, _ := s.Path.At(unit.Span(t))
		return spot.Add(now.Pos), true
	}
	return spot.Add(f.hitPlace).Add(gone(f.after[0], t-f.hitAt)), true
}

// tip returns how far the tip of the cue is from the ball's centre at rest, along the aim
// line: practice strokes, the stroke and its follow-through.
func (f *Film) tip(t float64) float64 {
	s := f.s
	t = f.since(t)
	start, _ := s.Path.At(0)
	speed := 0.75 * start.Vel.Norm()
	switch {
	case t < -0.35:
		return -s.Radius - 0.01 - 0.07*(1-math.Cos(2*math.Pi*t*1.4))
	case t < -0.12:
		return -s.Radius - 0.01 - 0.16*math.Sin((t+0.35)/0.23*math.Pi/2)
	case t < 0:
		k := t / -0.12
		return -s.Radius - 0.17*k
	}
	return -s.Radius + 0.16*(1-math.Exp(-t*speed/0.16))
}
