package cues

import (
	"pivotbench/core/shot"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// An Effort is the stroke that a ball speed takes with one cue.
type Effort struct {
	Stroke unit.Speed // cue speed at impact
	More   float64    // excess over the first cue's stroke, as a share of that
	Share  float64    // share of the stroke's energy that the ball takes, spin included
	Err    error      // why the cue can't play the hit
}

// Efforts returns the strokes that give the ball the same speed with every cue at
// a shot's contact. That speed is the shot's, or if the shot's is the cue's, the
// one that the first cue gives the ball. A first cue that can't play the shot is
// passed over.
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
