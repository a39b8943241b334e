package hop

import (
	"pivotbench/core/contact"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// The strokes that are searched. A cue faster than Hardest is beyond what people
// do, from memory and with the butt low: a hard break. With the butt raised they
// do less.
const (
	Slowest = 0.2 * unit.MilePerHour
	Most    = 40 * unit.MilePerHour
	Hardest = 25 * unit.MilePerHour
	Steep   = 85 * unit.Degree // the highest elevation looked at
)

// A Class is the result of a stroke at the gate.
type Class int

// The classes. A ball that rolls through counts as landed.
const (
	Touches Class = iota // or stops short, or is not sent
	Unsure               // touches or clears, depending on the contact times of tip and bed
	Clears               // but may still be in that flight at the required distance
	Lands                // clears, and lands before that distance
)

// together returns the class of a stroke that may be in either of two classes.
func together(a, b Class) Class {
	if a == b {
		return a
	}
	if a > Unsure && b > Unsure {
		return Clears
	}
	return Unsure
}

// A judge plays strokes with the whole model, later hops and the cloth included,
// for one ratio of contact times.
type judge struct {
	shot   shot.Shot
	ratio  float64
	before unit.Length
	path   motion.Path

	// The result of a hit for each m/s of the required speed is kept as long as
	// the elevation stays the same.
	pressed unit.Angle
	press   Press
	gain    unit.Speed // cue speed for each 1 m/s of the shot's own
	known   bool
	err     error
}

// send plays the shot as it now stands.
func (j *judge) send() error {
	if j.ratio == InTurn {
		return j.shot.Send(&j.path)
	}
	if !j.known || j.pressed != j.shot.Elevation {
		at := j.shot
		at.Speed = 1
		j.press, j.gain, j.err = Pressed(&at, j.ratio)
		j.known, j.pressed = true, j.shot.Elevation
	}
	if j.err == nil {
		j.press.Follow(&j.shot, j.gain*j.shot.Speed, &j.path)
	}
	return j.err
}

// at returns the class of the shot at an elevation and a speed.
func (j *judge) at(elevation unit.Angle, speed unit.Speed) Class {
	j.shot.Elevation, j.shot.Speed = elevation, speed
	if j.send() != nil {
		return Touches
	}
	pass, err := contact.Pass(&j.path, j.shot.Gate, j.shot.Ball.Radius)
	if err != nil || pass.Outcome != contact.Clean {
		return Touches
	}
	if over, err := Over(&j.path, j.shot.Gate.Dist); err == nil && over.Reach() > j.before {
		return Clears
	}
	return Lands
}

// A bench has one judge for each ratio.
type bench []judge

func newBench(s *shot.Shot, ratios []float64, before unit.Length) bench {
	b := make(bench, len(ratios))
	for i, r := range ratios {
		b[i] = judge{shot: *s, ratio: r, before: before}
	}
	return b
}

// at returns the class of the shot by all judges together.
func (b bench) at(elevation unit.Angle, speed unit.Speed) Class {
	class := b[0].at(elevation, speed)
	for i := 1; i < len(b) && class != Unsure; i++ {
		class = together(class, b[i].at(elevation, speed))
	}
	return class
}

// ClassOf returns the class of a shot as it stands over ratios of contact times; a
// shot that lands should do so before a distance.
func ClassOf(s *shot.Shot, ratios []float64, before unit.Length) Class {
	return newBench(s, ratios, before).at(s.Elevation, s.Speed)
}

// check returns why no stroke of a shot can be judged, or nil.
func check(s *shot.Shot, ratio float64) error {
	if !(s.Elevation >= 0 && s.Elevation < 90*unit.Degree) {
		return ErrUpright
	}
	if err := contact.Check(s.Gate, s.Ball.Radius); err != nil {
		return err
	}
	var p motion.Path
	return Send(s, ratio, &p)
}

// LeastSpeed returns the lowest speed, from Slowest to Most, at which a shot
// clears the gate with everything else as it is: by its first flight, by a later
// one, or on the cloth if it fits. It is the ball's or the cue's speed, as the
// shot's own is. Errors if there is no such speed: ErrNoHop, ErrFlat or ErrNone,
// whichever says most, or why the ball is not sent.
//
// Later flights are searched in steps of 2 %, so a window narrower than that may
// be missed. The first flight's is exact.
func LeastSpeed(s *shot.Shot, ratio float64) (unit.Speed, error) {
	if err := check(s, ratio); err != nil {
		return 0, err
	}
	j := judge{shot: *s, ratio: ratio}
	clears := func(v unit.Speed) bool { return j.at(s.Elevation, v) != Touches }
	const step = 1.02
	last := unit.Speed(-1)
	first, err := FirstFlight(s, ratio)
	if err != nil || first == 0 {
		first = 2 * Most // searched like any other
	}
	for v := Slowest; v <= Most; v *= step {
		if v > first && last < first && clears(first*(1+1e-12)) {
			return first, nil
		}
		if clears(v) {
			return halve(last, v, exact, clears), nil
		}
		last = v
	}
	if err != nil {
		return 0, err
	}
	return 0, ErrNone
}

// LeastElevation returns the lowest elevation, up to Steep, at which a shot clears
// the gate at its own speed. It is searched in steps of a quarter of a degree with
// the whole model. The errors are those of LeastSpeed.
func LeastElevation(s *shot.Shot, ratio float64) (unit.Angle, error) {
	if err := check(s, ratio); err != nil {
		return 0, err
	}
	j := judge{shot: *s, ratio: ratio}
	clears := func(a unit.Angle) bool { return j.at(a, s.Speed) != Touches }
	const step = unit.Degree / 4
	for i := range int(Steep/step) + 1 {
		if a := step * unit.Angle(i); clears(a) {
			return halve(a-step, a, exact, clears), nil
		}
	}
	return 0, ErrNone
}

// exact is the number of bisections that leave only the last digits.
const exact = 60

// halve narrows a change from no to yes by bisection. A first yes at the start of
// the search stays as it is.
func halve[T ~float64](no, yes T, rounds int, clears func(T) bool) T {
	if no < 0 {
		return yes
	}
	for range rounds {
		mid := (no + yes) / 2
		if clears(mid) {
			yes = mid
		} else {
			no = mid
		}
	}
	return yes
}
