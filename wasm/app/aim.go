package app

import (
	"math"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

// An Aimed is the solution of a shot: the stances that send the ball where it should go.
type Aimed struct {
	Heading unit.Angle               // heading of the cue
	Share   shot.Answer[float64]     // back-hand share at the current bridge and grip
	Pivot   shot.Answer[unit.Length] // bridge length for pure back-hand english
	Shift   unit.Length              // parallel aim shift at the target
	Throw   unit.Angle               // throw of the object ball; 0 for a target without an object ball
	Err     error                    // why there is no heading; nil if there is one
}

// Solve returns the solution for the target or, if pocket is true, for the pocket with
// throw included.
func Solve(s *scenario.Scenario, res *shot.Result, pocket bool) Aimed {
	sh := s.Shot()
	a := Aimed{Heading: res.Reading.Aim.Value, Err: res.Reading.Aim.Err()}
	if pocket {
		var to shot.PocketAim
		to, a.Err = sh.ToPocket(res)
		a.Heading, a.Throw = to.Heading, to.Throw
	}
	if a.Err == nil {
		a.Share, a.Pivot = sh.StanceFor(a.Heading)
		a.Shift = sh.ParallelShift(a.Heading)
	}
	return a
}

// AimIt replaces the shot's hands with the solved ones: the back-hand share, in whole
// per cents, that aims correctly with the player's own bridge and grip. It keeps the
// shot from before for comparison. If the shot has no solution, or no share is in range,
// only the notices change.
type AimIt struct{ Pocket bool }

func (e AimIt) update(m Model) Model {
	m = m.settled()
	m.Notices = nil
	a := Solve(&m.Scene, m.Play(), e.Pocket)
	err := a.Err
	if err == nil {
		err = a.Share.Err()
	}
	if err != nil {
		m.Notices = []string{"No aim for this shot: " + err.Error()}
		return m
	}
	aimed, share := m.Scene, scenario.Find("back").Stepped(a.Share.Value, m.Scene.Units, math.Round)
	for _, set := range []struct {
		key   string
		value float64
	}{{"back", share}, {"front", 1 - share}} {
		k := scenario.Find(set.key)
		if p := k.Set(&aimed, k.StepText(set.value, m.Scene.Units), ""); p != nil {
			m.Notices = []string{"Can't set the aim: it needs a back-hand share of " + phrase.Percent(a.Share.Value) +
				". Move the bridge nearer " + phrase.Pivot(&m.Scene, a.Pivot) + "."}
			return m
		}
	}
	m.Earlier, m.HasEarlier = m.Scene, true
	m.Scene = aimed
	return m.settled()
}

// Beside keeps the current shot for comparison, shown as a faint line. It replaces the
// one that was kept before.
type Beside struct{}

func (Beside) update(m Model) Model {
	m.Earlier, m.HasEarlier = m.Scene, true
	return m
}

// Unfaint removes the shot that is kept for comparison.
type Unfaint struct{}

func (Unfaint) update(m Model) Model {
	m.HasEarlier = false
	return m
}
