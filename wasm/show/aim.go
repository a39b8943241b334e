package show

import (
	"math"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/words"
)

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
	said := unit.Round(float64(size), unit.LengthKind, "mm", 0) + " mm"
	switch {
	case shift > 0:
		said += " right"
	case shift < 0:
		said += " left"
	}
	ball := 2 * s.GearBall().Radius
	return said + ", " + unit.Round(float64(size/s.TipWidth), unit.Ratio, "", 1) + " tips, " +
		unit.Round(float64(size/ball), unit.Ratio, "", 2) + " ball"
}

// AimWords is the answer in a sentence.
func AimWords(s *scenario.Scenario, a app.Aimed) string {
	if a.Err != nil {
		return words.Upper(a.Err.Error()) + "."
	}
	said := "Turn the cue " + words.Turned(a.Heading)
	if a.Share.Err == nil {
		said += ": " + HandsWords(a.Share.Value)
	}
	said += "."
	if a.Pivot.Err == nil {
		said += " Back hand alone off a " + words.Length(s, a.Pivot.Value) + " bridge."
	}
	if a.Shift != 0 {
		said += " Or parallel, aiming " + ShiftWords(s, a.Shift) + "."
	}
	if a.Throw != 0 {
		said += " Throw " + words.Turned(a.Throw) + " is in it."
	}
	return said
}
