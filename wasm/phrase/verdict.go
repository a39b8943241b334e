// Package phrase puts values of a shot into short phrases for people, in the
// reader's units. Plain Go, no browser.
package phrase

import (
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
		return Said{"Arrives " + Sideways(s, r.Arrival.Value), Upper(r.Verdict.Err().Error())}
	case r.Verdict.Err() != nil:
		return Said{"Arrives " + Sideways(s, r.Arrival.Value), mend(s, r)}
	}
	switch r.Verdict.Value {
	case shot.Miscue:
		return Said{"Miscue", "The tip slips off the ball: use less offset"}
	case shot.StopsShort:
		return Said{"Stops short of the gate", "The ball stops or turns away before the blockers"}
	case shot.TouchesLeft:
		return Said{"Hits left blocker first", by(s, -r.ClearLeft.Value) + ". " + mend(s, r)}
	case shot.TouchesRight:
		return Said{"Hits right blocker first", by(s, -r.ClearRight.Value) + ". " + mend(s, r)}
	}
	room := Small(s, float64(min(r.ClearLeft.Value, r.ClearRight.Value)))
	if room == Small(s, 0) {
		room = "Nothing"
	}
	return Said{"Clean", room + " to spare. " + mend(s, r)}
}

// by says how far a ball runs into a blocker.
func by(s *scenario.Scenario, depth unit.Length) string {
	if text := Small(s, float64(depth)); text != Small(s, 0) {
		return "By " + text
	}
	return "By a hair"
}

// mend says what would send the ball to the target, as a sentence without its full stop.
func mend(s *scenario.Scenario, r *shot.Reading) string {
	switch {
	case r.Arrival.Err() != nil:
		return Upper(r.Arrival.Err().Error())
	case unit.Abs(r.Arrival.Value) < 0.5*unit.Millimetre:
		return "On target"
	case r.PivotEffective.Err() != nil, !settable(s, r):
		return "Turn the cue to " + Turned(r.Aim.Value)
	case s.Back != 1 || s.Front != 0:
		if Percent(r.ShareBack.Value) == Percent(s.Back) && Percent(1-s.Back) == Percent(s.Front) {
			return "On target, to the nearest per cent"
		}
		return "Use " + Percent(r.ShareBack.Value) + " back hand"
	}
	use := Length(s, r.PivotEffective.Value)
	switch {
	case use == Length(s, s.Bridge):
		return "The bridge suits this shot"
	case s.Bridge < r.PivotEffective.Value:
		return "Bridge too short: use " + use
	}
	return "Bridge too long: use " + use
}

// settable reports whether what would send the ball to the target can be set: the bridge
// for pure back-hand english, the back-hand share otherwise.
func settable(s *scenario.Scenario, r *shot.Reading) bool {
	if s.Back == 1 && s.Front == 0 {
		return scenario.Find("bridge").Takes(float64(r.PivotEffective.Value))
	}
	return r.ShareBack.Err() == nil && scenario.Find("back").Takes(r.ShareBack.Value)
}
