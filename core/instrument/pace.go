package instrument

import (
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// A Pace is a word of the trade for a speed of the cue ball, and the speeds it is
// used for. They overlap.
type Pace struct {
	Word string
	stat.Interval[unit.Speed]
}

// Paces run from soft to hard: common practice, no source.
var Paces = []Pace{
	{"slow", stat.Interval[unit.Speed]{From: 0, To: 4 * unit.MilePerHour}},
	{"lag", stat.Interval[unit.Speed]{From: 3 * unit.MilePerHour, To: 5 * unit.MilePerHour}},
	{"medium", stat.Interval[unit.Speed]{From: 4.5 * unit.MilePerHour, To: 9 * unit.MilePerHour}},
	{"fast", stat.Interval[unit.Speed]{From: 9 * unit.MilePerHour, To: 15 * unit.MilePerHour}},
	{"break", stat.Interval[unit.Speed]{From: 15 * unit.MilePerHour, To: 30 * unit.MilePerHour}},
}

// PacesOf returns the paces that have a speed in common with an estimate's interval.
func PacesOf(e stat.Estimate[unit.Speed]) []Pace {
	var out []Pace
	for _, p := range Paces {
		if e.Meets(p.Interval) {
			out = append(out, p)
		}
	}
	return out
}
