package lesson

import (
	"errors"
	"math"
	"strings"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Goal is what an answer has to achieve.
type Goal string

// The goals.
const (
	Arrives  Goal = "arrives"  // within half a tip's width of the aim line, at the target
	Launches Goal = "launches" // within a tenth of a degree of the aim line, as the tip lets go
	Passes   Goal = "passes"   // between the blockers, clean
	Pots     Goal = "pots"     // the object ball, clean into its pocket
)

// Goals are all of them.
var Goals = []Goal{Arrives, Launches, Passes, Pots}

const straight = 0.1 * unit.Degree // the smallest angle that the eye can see on a wall

// A Question asks a class to drag one control until the goal is met. If the
// control is the back hand's share, the front hand does the rest.
type Question struct {
	Text string
	Key  string // of a scenario, a number
	Goal Goal
}

func (q *Question) check() error {
	if k := scenario.Find(q.Key); k == nil || !k.IsNumber() {
		return errors.New("control “" + clip(q.Key) + "”, allowed: the name of a control that is a number, such as bridge")
	}
	if measures[q.Goal] == nil {
		names := make([]string, len(Goals))
		for i, g := range Goals {
			names[i] = string(g)
		}
		return errors.New("goal “" + clip(string(q.Goal)) + "”, allowed: " + strings.Join(names, ", "))
	}
	return checkWords(q.Text, LongestWords)
}

// Put gives the dragged control a value in SI, limited to what the control and the
// table allow.
func (q *Question) Put(s *scenario.Scenario, v float64) {
	scenario.Find(q.Key).Put(s, v)
	if q.Key == "back" {
		const whole = 1e9 // removes the rounding error of the difference
		s.Front = math.Round(whole*(1-s.Back)) / whole
	}
	s.Fit()
}

// A measure returns how far a shot is off a goal, positive to the right, and
// whether that is near enough. err says why the shot has no such value.
type measure func(*shot.Shot, *shot.Result) (off float64, met bool, err error)

var measures = map[Goal]measure{
	Arrives: func(sh *shot.Shot, res *shot.Result) (float64, bool, error) {
		off := float64(res.Reading.Arrival.Value)
		return off, math.Abs(off) <= float64(sh.Cue.Tip.Width)/2, res.Reading.Arrival.Err()
	},
	Launches: func(_ *shot.Shot, res *shot.Result) (float64, bool, error) {
		off := float64(res.Reading.Launch.Value)
		return off, math.Abs(off) <= float64(straight), res.Reading.Launch.Err()
	},
	Passes: func(_ *shot.Shot, res *shot.Result) (float64, bool, error) {
		r := &res.Reading
		return float64(r.ClearLeft.Value-r.ClearRight.Value) / 2, r.Verdict.Value == shot.Clean, r.ClearLeft.Err()
	},
	Pots: func(sh *shot.Shot, res *shot.Result) (float64, bool, error) {
		if res.Launched != nil {
			return 0, false, res.Launched
		}
		var pot shot.Pot
		err := sh.Sink(&res.Path, &pot)
		if err == nil {
			err = pot.Missed
		}
		return float64(pot.Miss), pot.In(sh), err
	},
}

// Try compares a scenario with the goal: how far it is off, in metres or radians,
// positive to the right, and whether that is near enough.
func (q *Question) Try(s *scenario.Scenario) (off float64, met bool, err error) {
	sh, res := s.Shot(), new(shot.Result)
	shot.Play(&sh, res)
	off, met, err = measures[q.Goal](&sh, res)
	return off, met && err == nil, err
}
