package app

import (
	"math"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
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
	a := Aimed{Heading: res.Reading.Aim.Value, Err: res.Reading.Aim.Err}
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

// AimIt puts the solved stance on the bench: the back-hand share that is aimed
// right off the player's own bridge and grip. What was there stays as a faint
// line.
type AimIt struct{ Pocket bool }

func (e AimIt) update(m Model) Model {
	m = Settle{}.update(m)
	m.Notices = nil
	a := Solve(&m.Scene, m.Play(), e.Pocket)
	err := a.Err
	if err == nil {
		err = a.Share.Err
	}
	if err != nil {
		m.Notices = []string{"No aim: " + err.Error()}
		return m
	}
	aimed := m.Scene
	for _, set := range []struct {
		key   string
		value float64
	}{{"back", a.Share.Value}, {"front", 1 - a.Share.Value}} {
		k := scenario.Find(set.key)
		if p := k.Set(&aimed, unit.Exact(set.value, k.Quantity, k.Unit), ""); p != nil {
			m.Notices = []string{"No aim with these hands: it takes a back-hand share of " + percent(a.Share.Value) +
				". A bridge nearer " + pivotWords(&m.Scene, a.Pivot) + " would do it."}
			return m
		}
	}
	m.Earlier, m.HasEarlier = m.Scene, true
	m.Scene = aimed
	return Settle{}.update(m)
}

// Unfaint takes the faint line of the earlier shot off the sheet.
type Unfaint struct{}

func (Unfaint) update(m Model) Model {
	m.HasEarlier = false
	return m
}

func pivotWords(s *scenario.Scenario, p shot.Answer[unit.Length]) string {
	if p.Err != nil {
		return "the natural pivot"
	}
	return length(s, p.Value)
}

// HandsWords say what the hands do for a share.
func HandsWords(share float64) string {
	b := math.Round(share * 100)
	back, front := rounded(math.Abs(b)), rounded(math.Abs(100-b))
	switch {
	case b == 100:
		return "back hand alone"
	case b == 0:
		return "front hand alone"
	case b > 100:
		return "back hand " + back + " %, then the front hand " + front + " % back the other way"
	case b < 0:
		return "front hand " + front + " %, then the back hand " + back + " % back the other way"
	}
	return "back hand " + back + " %, front hand " + front + " %"
}

func rounded(v float64) string { return unit.Round(v, unit.Ratio, "", 0) }

// ShiftWords are the parallel shift in millimetres, tip widths and balls.
func ShiftWords(s *scenario.Scenario, shift unit.Length) string {
	size := unit.Length(math.Abs(float64(shift)))
	words := unit.Round(float64(size), unit.LengthKind, "mm", 0) + " mm"
	switch {
	case shift > 0:
		words += " right"
	case shift < 0:
		words += " left"
	}
	ball := 2 * s.GearBall().Radius
	return words + ", " + unit.Round(float64(size/s.TipWidth), unit.Ratio, "", 1) + " tips, " +
		unit.Round(float64(size/ball), unit.Ratio, "", 2) + " ball"
}

// AimWords is the answer in a sentence.
func AimWords(s *scenario.Scenario, a Aimed) string {
	if a.Err != nil {
		return upper(a.Err.Error()) + "."
	}
	words := "Turn the cue " + Turned(a.Heading)
	if a.Share.Err == nil {
		words += ": " + HandsWords(a.Share.Value)
	}
	words += "."
	if a.Pivot.Err == nil {
		words += " Back hand alone off a " + length(s, a.Pivot.Value) + " bridge."
	}
	if a.Shift != 0 {
		words += " Or parallel, aiming " + ShiftWords(s, a.Shift) + "."
	}
	if a.Throw != 0 {
		words += " Throw " + Turned(a.Throw) + " is in it."
	}
	return words
}
