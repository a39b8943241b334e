package instrument

import "pivotbench/core/unit"

// A Pace is a word of the trade for a speed of the cue ball, and the range it
// is used for. The ranges overlap.
type Pace struct {
	Word     string
	From, To unit.Speed
}

// Paces are from soft to hard: common practice, no source.
var Paces = []Pace{
	{"slow", 0, 4 * unit.MilePerHour},
	{"lag", 3 * unit.MilePerHour, 5 * unit.MilePerHour},
	{"medium", 4.5 * unit.MilePerHour, 9 * unit.MilePerHour},
	{"fast", 9 * unit.MilePerHour, 15 * unit.MilePerHour},
	{"break", 15 * unit.MilePerHour, 30 * unit.MilePerHour},
}

// PacesOf are the words whose range an estimate's interval has a part in.
func PacesOf(e Estimate[unit.Speed]) []Pace {
	var out []Pace
	for _, p := range Paces {
		if e.From <= p.To && p.From <= e.To {
			out = append(out, p)
		}
	}
	return out
}
