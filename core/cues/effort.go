package cues

import (
	"pivotbench/core/shot"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// An Effort is what a ball speed takes with one cue.
type Effort struct {
	Stroke unit.Speed // of the cue as it meets the ball
	More   float64    // than the first cue's, as a share of it
	Share  float64    // of the stroke's energy that goes on with the ball, its spin included
	Err    error      // why the hit does not come off
}

// Efforts are the stroke speeds that give the ball the same speed at a shot's
// contact: the shot's, or what the first cue makes of it if that is the
// stroke's. They follow from the masses, the tip's restitution and the offset.
// A first cue that can't play the shot is passed over.
func Efforts(s *shot.Shot, cues []Candidate) []Effort {
	out := make([]Effort, len(cues))
	speed := s.Speed
	first := -1
	for i := range cues {
		sh, e := cues[i].With(s), &out[i]
		hit, err := strike.Prepare(sh.Ball, sh.Cue, sh.Contact)
		if err != nil {
			e.Err = err
			continue
		}
		if first < 0 {
			first = i
			if s.ByStroke {
				speed = hit.BallSpeed(s.Speed)
			}
		}
		e.Stroke = hit.CueSpeed(speed)
		e.More = float64(e.Stroke/out[first].Stroke) - 1
		l, v := hit.At(strike.Line{}, e.Stroke), float64(e.Stroke)
		spin := l.Spin.Mul(float64(sh.Ball.Radius))
		// A solid ball's moment of inertia is 2/5 m R².
		e.Share = float64(sh.Ball.Mass/sh.Cue.Mass) * (l.Vel.Dot(l.Vel) + 0.4*spin.Dot(spin)) / (v * v)
	}
	return out
}
