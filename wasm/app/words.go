package app

import (
	"math"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// Words are the verdict for people: what happens, and what would mend it.
type Words struct{ Head, Detail string }

// Verdict puts a reading into words.
func Verdict(s *scenario.Scenario, r *shot.Reading) Words {
	switch {
	case r.Verdict.Err != nil && r.Arrival.Err != nil:
		return Words{Head: upper(r.Arrival.Err.Error())}
	case r.Verdict.Err != nil && s.Gate > 0:
		return Words{"Arrives " + Sideways(s, r.Arrival.Value), r.Verdict.Err.Error()}
	case r.Verdict.Err != nil:
		return Words{"Arrives " + Sideways(s, r.Arrival.Value), mend(s, r)}
	}
	switch r.Verdict.Value {
	case shot.Miscue:
		return Words{"Miscue", "the tip slips off the ball: use less offset"}
	case shot.StopsShort:
		return Words{"Does not reach the gate", "the ball stops or turns away before it"}
	case shot.TouchesLeft:
		return Words{"Touches L first", "by " + small(s, -float64(r.ClearLeft.Value)) + ": " + mend(s, r)}
	case shot.TouchesRight:
		return Words{"Touches R first", "by " + small(s, -float64(r.ClearRight.Value)) + ": " + mend(s, r)}
	}
	room := math.Min(float64(r.ClearLeft.Value), float64(r.ClearRight.Value))
	return Words{"Clean", small(s, room) + " to spare; " + mend(s, r)}
}

// mend says what would send the ball to the target.
func mend(s *scenario.Scenario, r *shot.Reading) string {
	switch {
	case r.Arrival.Err != nil:
		return r.Arrival.Err.Error()
	case math.Abs(float64(r.Arrival.Value)) < 0.0005:
		return "this runs to the target"
	case r.PivotEffective.Err != nil:
		return "turn the cue " + Turned(r.Aim.Value) + " to send it to the target"
	case s.Back != 1 || s.Front != 0:
		return "a back-hand share of " + percent(r.ShareBack.Value) + " sends it to the target"
	}
	word := "too long"
	if s.Bridge < r.PivotEffective.Value {
		word = "too short"
	}
	return "bridge " + word + " for this shot; " + length(s, r.PivotEffective.Value) + " sends it to the target"
}

// Sideways is an offset in words: 0.64 in right.
func Sideways(s *scenario.Scenario, x unit.Length) string {
	text := small(s, math.Abs(float64(x)))
	switch {
	case text == small(s, 0):
		return "on the line"
	case x > 0:
		return text + " right"
	}
	return text + " left"
}

// Turned is an angle in words: 2.8° right.
func Turned(a unit.Angle) string {
	text := scenario.Display{Quantity: unit.AngleKind, Unit: "°", Decimals: 2}.Format(math.Abs(float64(a)))
	switch {
	case a > 0:
		return text + " right"
	case a < 0:
		return text + " left"
	}
	return text
}

// small is a short length, one more decimal than a long one has.
func small(s *scenario.Scenario, v float64) string {
	if s.Units == "cm" {
		return scenario.Display{Quantity: unit.LengthKind, Unit: "mm", Decimals: 1}.Format(v)
	}
	return scenario.Display{Quantity: unit.LengthKind, Unit: "in", Decimals: 2}.Format(v)
}

func length(s *scenario.Scenario, v unit.Length) string {
	return scenario.DisplayOf(unit.LengthKind, s.Units).Format(float64(v))
}

func percent(share float64) string { return unit.Round(100*share, unit.Ratio, "", 0) + " %" }

// upper makes a sentence's first letter a capital. Reasons begin in ASCII.
func upper(text string) string {
	return string(text[0]-'a'+'A') + text[1:]
}
