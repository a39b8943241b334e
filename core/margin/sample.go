// Package margin computes what a player's scatter does to a shot: how the error at the
// target depends on each input, where the strokes go, and how many of them succeed.
package margin

import (
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// Scatter holds the standard deviations of everything that a player does not repeat
// exactly. Two errors move the tip sideways. Wander is during the stroke: the bridge hand
// is planted and the cue turns about it, whichever hand dialled the english in. A dialling
// error is made before, by the hands that dial.
type Scatter struct {
	Tip    unit.Length // wander of the tip from where it was set, sideways and in height each
	Dial   unit.Length // how far to the side of where it was meant the tip is set
	Speed  float64     // as a share of the intended speed
	Bridge unit.Length
	Elev   unit.Angle
	Aim    unit.Angle // of the whole stance
}

// dimensions is how many independent Normal variables a stroke has.
const dimensions = 7

// shifts is how many times the point set is used, each time shifted as a whole by
// another amount. The amounts never change, so answers don't either. The spread of
// the sets is a guide to the standard error, good to a factor of two.
const shifts = 8

// A Sampler holds standard Normal points that are spread more evenly than chance
// would: Halton points, shifted by a few fixed amounts.
type Sampler struct{ points [][dimensions]float64 }

// NewSampler returns a sampler of about n points, a multiple of the number of
// shifts.
func NewSampler(n int) *Sampler {
	each := max(1, (n+shifts-1)/shifts)
	s := &Sampler{make([][dimensions]float64, 0, each*shifts)}
	for shift := range shifts {
		for _, u := range stat.Halton(each, []int{2, 3, 5, 7, 11, 13, 17}, shift+1) {
			var p [dimensions]float64
			for d := range p {
				p[d] = stat.NormalQuantile(u[d])
			}
			s.points = append(s.points, p)
		}
	}
	return s
}

// N returns the number of strokes.
func (s *Sampler) N() int { return len(s.points) }

// stroke returns the i-th attempt at a shot.
func (s *Sampler) stroke(i int, meant *shot.Shot, sc *Scatter) shot.Shot {
	z, tried := &s.points[i], *meant
	tried.Contact.Side += float64(sc.Dial/meant.Ball.Radius) * z[6]
	tried.Contact.Height += float64(sc.Tip/meant.Ball.Radius) * z[1]
	tried.Speed *= unit.Speed(max(0.01, 1+sc.Speed*z[2]))
	tried.Hands.Bridge = max(tried.Hands.Bridge+sc.Bridge*unit.Length(z[3]), 0)
	tried.Elevation = min(max(tried.Elevation+sc.Elev*unit.Angle(z[4]), 0), 89*unit.Degree)
	tried.AimOff += sc.Aim * unit.Angle(z[5])
	wander(&tried, sc.Tip*unit.Length(z[0]))
	return tried
}

// wander moves the contact sideways during the stroke, by an amount that is positive to
// the right, and turns the cue about the planted bridge hand. A cue that can't turn that
// far stays as its hands have it: Send then says so.
func wander(s *shot.Shot, by unit.Length) {
	meant, err := s.Hands.Apply(s.Axis(), s.Ball.Radius)
	s.Contact.Side += float64(by / s.Ball.Radius)
	if err != nil || by == 0 {
		return
	}
	dialled, err := s.Hands.Apply(s.Axis(), s.Ball.Radius)
	heading, errTurn := s.Hands.Wander(meant, s.Axis(), s.Ball.Radius)
	if err == nil && errTurn == nil {
		s.AimOff += heading - dialled.Heading
	}
}
