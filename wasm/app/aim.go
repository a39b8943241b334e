package app

import (
	"math"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

// An Aimed is the answer to a shot: what sends it where it should go.
type Aimed struct {
	Heading unit.Angle
	Share   shot.Answer[float64]
	Pivot   shot.Answer[unit.Length]
	Shift   unit.Length // parallel aim shift at the target
	Throw   unit.Angle  // of the object ball; 0 when the target is all there is
	Err     error
}

// Solve answers for the target, or for the pocket with throw included.
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

// AimIt puts the solved stance on the bench: the back-hand share, in whole per
// cents, that is aimed right off the player's own bridge and grip. What was
// there stays as a faint line.
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
		m.Notices = []string{"No aim: " + err.Error()}
		return m
	}
	aimed, share := m.Scene, scenario.Find("back").Stepped(a.Share.Value, m.Scene.Units, math.Round)
	for _, set := range []struct {
		key   string
		value float64
	}{{"back", share}, {"front", 1 - share}} {
		k := scenario.Find(set.key)
		if p := k.Set(&aimed, k.StepText(set.value, m.Scene.Units), ""); p != nil {
			m.Notices = []string{"No aim with these hands: it takes a back-hand share of " + phrase.Percent(a.Share.Value) +
				". A bridge nearer " + phrase.Pivot(&m.Scene, a.Pivot) + " would do it."}
			return m
		}
	}
	m.Earlier, m.HasEarlier = m.Scene, true
	m.Scene = aimed
	return m.settled()
}

// Beside keeps the shot as it is now as a faint line, to see what changes.
type Beside struct{}

func (Beside) update(m Model) Model {
	m.Earlier, m.HasEarlier = m.Scene, true
	return m
}

// Unfaint takes the faint line of the earlier shot off the sheet.
type Unfaint struct{}

func (Unfaint) update(m Model) Model {
	m.HasEarlier = false
	return m
}
