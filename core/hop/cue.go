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

// A Try is the result of a stroke with another cue, over ratios of contact times.
type Try struct {
	Err       error // why the ball is not sent; the fields below are then not set
	CueSpeed  unit.Speed
	BallSpeed unit.Speed                 // of a free ball, as the tip lets go
	Squirt    unit.Angle                 // of that ball
	Rise      stat.Interval[unit.Length] // greatest height of the first flight; 0 for none
	Reach     stat.Interval[unit.Length] // where the first flight ends, from the start
	Room      stat.Interval[unit.Length] // the smaller clearance; negative if the ball touches
	Short     bool                       // the ball may stop before the gate
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

// widen extends an interval to include a value. The first value makes an interval of its
// own.
func widen[T ~float64](r *stat.Interval[T], v T, first bool) {
	if first {
		r.From, r.To = v, v
	}
	r.From, r.To = min(r.From, v), max(r.To, v)
}

// SameWork returns the speed of another cue for the same work, that is the same ½MV², as
// if the arm had no mass. An arm has mass, so the true speed is nearer that of the first
// cue.
func SameWork(speed unit.Speed, from, to unit.Mass) unit.Speed {
	return speed * unit.Speed(math.Sqrt(float64(from/to)))
}
