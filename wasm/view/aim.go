package view

import (
	"math"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// HandsWords says in words what the hands do for a back-hand share. A share outside
// 0 to 1 means that one hand moves back the other way.
func HandsWords(share float64) string {
	b := math.Round(share * 100)
	back, front := rounded(math.Abs(b)), rounded(math.Abs(100-b))
	switch {
	case b == 100:
		return "back hand alone"
	case b == 0:
		return "front hand alone"
	case b > 100:
		return "back hand " + back + " %, then front hand " + front + " % the other way"
	case b < 0:
		return "front hand " + front + " %, then back hand " + back + " % the other way"
	}
	return "back hand " + back + " %, front hand " + front + " %"
}

func rounded(v float64) string { return unit.Round(v, unit.Ratio, "", 0) }

// ShiftWords returns a parallel shift, positive to the right, in the reader's units,
// in tip widths and in balls.
func ShiftWords(s *scenario.Scenario, shift unit.Length) string {
	size, ball := unit.Abs(shift), 2*s.GearBall().Radius
	return phrase.Sideways(s, shift) + ", " + unit.Round(float64(size/s.TipWidth), unit.Ratio, "", 1) + " tips, " +
		unit.Round(float64(size/ball), unit.Ratio, "", 2) + " ball"
}

// AimWords returns the corrected aim in sentences, or the reason why there is none.
func AimWords(s *scenario.Scenario, a app.Aimed) string {
	if a.Err != nil {
		return phrase.Upper(a.Err.Error()) + "."
	}
	said := "Turn the cue to " + phrase.Turned(a.Heading)
	if a.Share.Err() == nil {
		said += ": " + HandsWords(a.Share.Value)
	}
	said += "."
	if a.Pivot.Err() == nil && scenario.Find("bridge").Takes(float64(a.Pivot.Value)) {
		said += " Or use the back hand alone with a " + phrase.Length(s, a.Pivot.Value) + " bridge."
	}
	if a.Shift != 0 {
		said += " Or keep the cue parallel and aim " + ShiftWords(s, a.Shift) + "."
	}
	if a.Throw != 0 {
		said += " This allows for " + phrase.Turned(a.Throw) + " of throw."
	}
	return said
}

// An Aim is the aim correction that the Shot section shows.
type Aim struct {
	Words string
	Can   bool // the correction can be applied to the current shot
}

// AimOf returns the aim correction for a model.
func AimOf(m *app.Model) Aim {
	aimed := app.Solve(&m.Scene, m.Play(), m.Look.Object)
	return Aim{AimWords(&m.Scene, aimed), aimed.Err == nil && aimed.Share.Err() == nil}
}
