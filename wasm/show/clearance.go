package show

import (
	"pivotbench/core/hop"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/words"
)

// A Clearing is what the Clearance section says of a shot.
type Clearing struct {
	Head, Detail string
	Facts        []Fact
}

// Clear looks at a shot as a hop over the gate.
func Clear(s *scenario.Scenario, res *shot.Result) Clearing {
	var c Clearing
	c.Head, c.Detail = hopVerdict(s, res)
	if res.Launched != nil {
		return c
	}
	c.heights(s, res)
	c.strokes(s, res)
	c.way(s, res)
	return c
}

func (c *Clearing) add(name, value string) { c.Facts = append(c.Facts, Fact{name, value}) }

// hopVerdict says whether it clears, and by what.
func hopVerdict(s *scenario.Scenario, res *shot.Result) (head, detail string) {
	r := &res.Reading
	switch {
	case res.Launched != nil:
		return words.Upper(res.Launched.Error()), ""
	case r.Verdict.Err() != nil:
		return words.Upper(r.Verdict.Err().Error()), ""
	case r.Verdict.Value == shot.StopsShort:
		return "Does not reach the gate", "the ball stops or turns away before it"
	case r.Verdict.Value != shot.Clean:
		least := min(r.ClearLeft.Value, r.ClearRight.Value)
		head = map[shot.Verdict]string{shot.TouchesLeft: "Touches L first", shot.TouchesRight: "Touches R first"}[r.Verdict.Value]
		return head, "too low by " + words.Small(s, -float64(least)) + " from ball to ball"
	}
	room := min(r.ClearLeft.Value, r.ClearRight.Value)
	over, err := hop.Over(&res.Path, s.Gate)
	if err != nil {
		return "Clears on the cloth", words.Small(s, float64(room)) + " to spare: no hop is needed"
	}
	flights := map[int]string{1: "first", 2: "second", 3: "third"}
	which := flights[over.Number]
	if which == "" {
		which = "a later"
	}
	return "Clears in its " + which + " flight", words.Small(s, float64(room)) + " to spare from ball to ball"
}

// heights are what each blocker asks of the ball's centre.
func (c *Clearing) heights(s *scenario.Scenario, res *shot.Result) {
	sh := s.Shot()
	left, right, err := hop.Needs(&res.Path, sh.Gate, sh.Ball.Radius)
	if err != nil {
		c.add("height over the blockers", err.Error())
		return
	}
	for _, b := range []struct {
		name string
		need hop.Need
	}{{"L", left}, {"R", right}} {
		if b.need.Height == 0 {
			c.add("centre's height over "+b.name, "passes beside it")
			continue
		}
		c.add("centre's height over "+b.name, words.Small(s, float64(2*sh.Ball.Radius-b.need.Aside))+" in the way: needs "+words.Small(s, float64(b.need.Height))+", has "+words.Small(s, float64(b.need.Has)))
	}
}

// strokes are the least ones that clear.
func (c *Clearing) strokes(s *scenario.Scenario, res *shot.Result) {
	sh := s.Shot()
	whose := " of the ball"
	if s.ByStroke {
		whose = " of the cue"
	}
	speed, err := hop.LeastSpeed(&sh)
	value := pace(s, speed) + whose
	if speed > Hardest(s, &res.Reading) {
		value += ", more than people do"
	}
	c.add("lowest speed at "+pitch(s, s.Elev), orWhy(value, err))
	elev, err := hop.LeastElevation(&sh)
	c.add("lowest elevation at "+pace(s, s.Speed)+whose, orWhy(pitch(s, elev), err))
}

func pace(s *scenario.Scenario, v unit.Speed) string {
	return scenario.DisplayOf(unit.SpeedKind, s.Units).Format(float64(v))
}

func pitch(s *scenario.Scenario, a unit.Angle) string {
	return scenario.DisplayOf(unit.AngleKind, s.Units).Format(float64(a))
}

// orWhy is a value, or why there is none.
func orWhy(value string, err error) string {
	if err != nil {
		return err.Error()
	}
	return value
}

// way is the flight itself, what english does to it, and how it comes to the
// object ball.
func (c *Clearing) way(s *scenario.Scenario, res *shot.Result) {
	if cue := res.Reading.CueSpeed.Value; cue > hop.Hardest {
		c.add("this stroke", "a cue at "+pace(s, cue)+" is more than people do: about "+pace(s, hop.Hardest)+" with the butt low, and less with it raised")
	}
	path, sh := &res.Path, s.Shot()
	if flights := hop.Flights(path, 0); len(flights) == 0 {
		c.add("flight", "none: the ball keeps to the cloth")
	} else {
		f := &flights[0]
		c.add("rises", words.Small(s, float64(f.Rise())))
		c.add("lands", words.Length(s, f.Reach())+" from the start, after "+scenario.DisplayOf(unit.SpanKind, s.Units).Format(float64(f.Begin+f.Length)))
		if over, err := hop.Over(path, s.Gate); err == nil && over.Number > 1 {
			c.add("lands past the blockers", words.Length(s, over.Reach())+" from the start")
		}
		t := hop.Turning(path, f)
		c.add("flies along", words.Turned(t.Air)+" of the aim line, squirt and the cloth's answer to the strike in it")
		if s.Side != 0 {
			c.add("turned after landing", words.Turned(t.Rolls-t.Air)+": in the air english turns nothing")
		}
	}
	how, rise := hop.Meets(path, sh.ObjectAt(), sh.Ball.Radius)
	high := ", its centre " + words.Small(s, float64(rise)) + " above the object ball's"
	c.add("object ball at the target", map[hop.Meeting]string{
		hop.Misses: "missed", hop.OnTheCloth: "met on the cloth",
		hop.OnTheFly: "hit on the fly" + high, hop.FliesOver: "flown over" + high,
	}[how])
}
