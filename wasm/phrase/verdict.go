// Package phrase puts values of a shot into short phrases for people, in the
// reader's units. Plain Go, no browser.
package phrase

import (
	"math"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// Said is a verdict for people: what happens, and what would correct it.
type Said struct{ Head, Detail string }

// Verdict puts a reading into words.
func Verdict(s *scenario.Scenario, r *shot.Reading) Said {
	switch {
	case r.Verdict.Err() != nil && r.Arrival.Err() != nil:
		return Said{Head: Upper(r.Arrival.Err().Error())}
	case r.Verdict.Err() != nil && s.Gate > 0:
		return Said{"Arrives " + Sideways(s, r.Arrival.Value), r.Verdict.Err().Error()}
	case r.Verdict.Err() != nil:
		return Said{"Arrives " + Sideways(s, r.Arrival.Value), mend(s, r)}
	}
	switch r.Verdict.Value {
	case shot.Miscue:
		return Said{"Miscue", "the tip slips off the ball: use less offset"}
	case shot.StopsShort:
		return Said{"Does not reach the gate", "the ball stops or turns away before it"}
	case shot.TouchesLeft:
		return Said{"Touches L first", "by " + Small(s, -float64(r.ClearLeft.Value)) + ": " + mend(s, r)}
	case shot.TouchesRight:
		return Said{"Touches R first", "by " + Small(s, -float64(r.ClearRight.Value)) + ": " + mend(s, r)}
	}
	room := math.Min(float64(r.ClearLeft.Value), float64(r.ClearRight.Value))
	return Said{"Clean", Small(s, room) + " to spare; " + mend(s, r)}
}

// mend says what would send the ball to the target.
func mend(s *scenario.Scenario, r *shot.Reading) string {
	switch {
	case r.Arrival.Err() != nil:
		return r.Arrival.Err().Error()
	case unit.Abs(r.Arrival.Value) < 0.5*unit.Millimetre:
		return "this runs to the target"
	case r.PivotEffective.Err() != nil, !settable(s, r):
		return "turn the cue " + Turned(r.Aim.Value) + " to send it to the target"
	case s.Back != 1 || s.Front != 0:
		if Percent(r.ShareBack.Value) == Percent(s.Back) && Percent(1-s.Back) == Percent(s.Front) {
			return "aimed to the nearest per cent"
		}
		return "a back-hand share of " + Percent(r.ShareBack.Value) + " sends it to the target"
	}
	if Length(s, r.PivotEffective.Value) == Length(s, s.Bridge) {
		return "the bridge suits this shot"
	}
	word := "too long"
	if s.Bridge < r.PivotEffective.Value {
		word = "too short"
	}
	return "bridge " + word + " for this shot; " + Length(s, r.PivotEffective.Value) + " sends it to the target"
}

// settable reports whether what would send the ball to the target can be set: the bridge
// for pure back-hand english, the back-hand share otherwise.
func settable(s *scenario.Scenario, r *shot.Reading) bool {
	if s.Back == 1 && s.Front == 0 {
		return scenario.Find("bridge").Takes(float64(r.PivotEffective.Value))
	}
	return r.ShareBack.Err() == nil && scenario.Find("back").Takes(r.ShareBack.Value)
}
