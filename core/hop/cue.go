package hop

import (
	"math"

	"pivotbench/core/contact"
	"pivotbench/core/gear"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Try is a stroke played with another cue.
type Try struct {
	Err       error // why the ball is never sent; the rest is then not set
	CueSpeed  unit.Speed
	BallSpeed unit.Speed
	Squirt    unit.Angle
	Rise      unit.Length // of the first flight, the highest; 0: none
	Reach     unit.Length // where it comes down, from the start
	Passage   contact.Passage
	Gate      error // why there is no passage
}

// With plays a shot with another cue that moves at a speed.
func With(s *shot.Shot, cue gear.Cue, speed unit.Speed) Try {
	at := *s
	at.Cue, at.Speed, at.ByStroke = cue, speed, true
	var res shot.Result
	shot.Play(&at, &res)
	if res.Launched != nil {
		return Try{Err: res.Launched}
	}
	r := &res.Reading
	t := Try{CueSpeed: speed, BallSpeed: r.BallSpeed.Value, Squirt: r.Squirt.Value}
	if flights := Flights(&res.Path, 0); len(flights) > 0 {
		t.Rise, t.Reach = flights[0].Rise(), flights[0].Reach()
	}
	t.Passage, t.Gate = contact.Pass(&res.Path, s.Gate, s.Ball.Radius)
	return t
}

// SameWork is the speed to which the work that gives one cue a speed brings
// another: ½MV² alike, as if the arm weighed nothing. The ball then gets the
// most from a cue of its own mass, √M/(M + m) being greatest there: above it,
// lighter is faster. An arm has weight, and gains less.
func SameWork(speed unit.Speed, from, to unit.Mass) unit.Speed {
	return speed * unit.Speed(math.Sqrt(float64(from/to)))
}

// Lightest is the least mass a cue with another tip can have and still give
// the ball as much at centre as a cue does at the same cue speed. From
// v/V = (1+e)/(1+m/M) it is
//
//	M′ = m/((1+m/M)(1+e′)/(1+e) − 1)
//
// so at the same hand speed a lighter cue alone always gives less, and a
// harder tip more; +Inf when not even the heaviest cue with that tip would do.
func Lightest(ball gear.Ball, cue gear.Cue, restitution float64) unit.Mass {
	ratio := (1+float64(ball.Mass/cue.Mass))*(1+restitution)/(1+cue.Tip.Restitution) - 1
	if ratio <= 0 {
		return unit.Mass(math.Inf(1))
	}
	return ball.Mass / unit.Mass(ratio)
}
