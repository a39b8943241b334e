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
	Err       error // why the ball is not sent; the rest is then not set
	CueSpeed  unit.Speed
	BallSpeed unit.Speed                 // off the tip, for a free ball
	Squirt    unit.Angle                 // of that ball
	Rise      stat.Interval[unit.Length] // greatest height of the first flight; 0: none
	Reach     stat.Interval[unit.Length] // where the first flight ends, from the start
	Room      stat.Interval[unit.Length] // the lesser clearance; negative: it touches
	Short     bool                       // it may stop before the gate
	Gate      error                      // why there is no clearance
}

// With plays a shot with another cue at a speed of that cue.
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

// widen extends an interval to hold a value; the first value is all of it.
func widen[T ~float64](r *stat.Interval[T], v T, first bool) {
	if first {
		r.From, r.To = v, v
	}
	r.From, r.To = min(r.From, v), max(r.To, v)
}

// SameWork returns the speed of another cue for the same work: ½MV² is equal, as
// if the arm weighed nothing. An arm has weight, so the true speed is nearer the
// first cue's.
func SameWork(speed unit.Speed, from, to unit.Mass) unit.Speed {
	return speed * unit.Speed(math.Sqrt(float64(from/to)))
}
