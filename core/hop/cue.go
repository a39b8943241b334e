package hop

import (
	"math"

	"pivotbench/core/contact"
	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// A Try is a stroke played with another cue, over ratios of contact times.
type Try struct {
	Err       error // why the ball is never sent; the rest is then not set
	CueSpeed  unit.Speed
	BallSpeed unit.Speed                 // as the tip would let a free ball go
	Squirt    unit.Angle                 // of that ball
	Rise      stat.Interval[unit.Length] // of the first flight, the highest; 0: none
	Reach     stat.Interval[unit.Length] // where it comes down, from the start
	Room      stat.Interval[unit.Length] // the lesser clearance; negative: it touches
	Short     bool                       // it may stop before the gate
	Gate      error                      // why there is no clearance
}

// With plays a shot with another cue that moves at a speed.
func With(s *shot.Shot, ratios []float64, cue gear.Cue, speed unit.Speed) Try {
	at := *s
	at.Cue, at.Speed, at.ByStroke = cue, speed, true
	hit, line, _, err := at.Stroke()
	if err != nil {
		return Try{Err: err}
	}
	t := Try{CueSpeed: speed, BallSpeed: hit.BallSpeed(speed), Squirt: hit.Squirt(line.Elevation)}
	var path motion.Path
	for i, ratio := range ratios {
		if err := Send(&at, ratio, &path); err != nil {
			return Try{Err: err}
		}
		var rise, reach unit.Length
		if f := Flights(&path, 0); len(f) > 0 {
			rise, reach = f[0].Rise(), f[0].Reach()
		}
		pass, err := contact.Pass(&path, s.Gate, s.Ball.Radius)
		t.Gate = err
		t.Short = t.Short || pass.Outcome == contact.Short
		widen(&t.Rise, rise, i == 0)
		widen(&t.Reach, reach, i == 0)
		widen(&t.Room, min(pass.Left, pass.Right), i == 0)
	}
	return t
}

// widen makes a range hold a value; the first is all of it.
func widen[T ~float64](r *stat.Interval[T], v T, first bool) {
	if first {
		r.From, r.To = v, v
	}
	r.From, r.To = min(r.From, v), max(r.To, v)
}

// SameWork is the speed to which the work that gives one cue a speed brings
// another: ½MV² alike, as if the arm weighed nothing. An arm has weight, and
// gains less.
func SameWork(speed unit.Speed, from, to unit.Mass) unit.Speed {
	return speed * unit.Speed(math.Sqrt(float64(from/to)))
}
