package view

import (
	"math"
	"strconv"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

// OutcomeNames are the results of a try as the buttons have them.
var OutcomeNames = map[string]string{"left": "touched L", "clean": "clean", "right": "touched R"}

// Noted says what was noted down as a stroke at the gate, counted from zero, so that a value
// that was not meant is seen at once.
func Noted(try int, k store.Stroke, units string) string {
	s, _ := scenario.Parse(k.Link)
	s.Units = units
	said := "try " + strconv.Itoa(try+1) + " noted: " + OutcomeNames[k.See]
	english := "no english"
	if s.Side != 0 {
		english = side(s.Side > 0) + " english " + unit.Round(math.Abs(s.Side), unit.Ratio, "", 2) + " R"
	}
	pace := "speed"
	if s.ByStroke {
		pace = "stroke"
	}
	return said + ", bridge " + scenario.Find("bridge").Shown(&s) + ", " + english + ", " + scenario.Find(pace).Shown(&s)
}
