package hop

import (
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Run is an interval of speeds with one class.
type Run struct {
	From, To unit.Speed
	Class    Class
}

// A Column is an elevation and its runs, from the lowest speed up.
type Column struct {
	Elevation unit.Angle
	Runs      []Run
}

// pieces is the number of samples in a column before the changes are refined.
const pieces = 45

// Map returns the classes of a shot at each of the given elevations and every speed up to
// most, over ratios of contact times, with everything else as in the shot. before is the
// distance by which the ball should be down. An elevation at which the ball is never sent
// has one run that touches.
func Map(s *shot.Shot, ratios []float64, elevations []unit.Angle, most unit.Speed, before unit.Length) []Column {
	b := newBench(s, ratios, before)
	out := make([]Column, len(elevations))
	for i, a := range elevations {
		out[i] = Column{a, b.runs(a, most)}
	}
	return out
}

func (b bench) runs(a unit.Angle, most unit.Speed) []Run {
	at := func(v unit.Speed) Class { return b.at(a, v) }
	var runs []Run
	from, now := unit.Speed(0), Touches // without speed there is no hop
	for i := 1; i <= pieces; i++ {
		v := most * unit.Speed(i) / pieces
		if next := at(v); next != now {
			edge := change(most*unit.Speed(i-1)/pieces, v, now, at)
			runs = append(runs, Run{from, edge, now})
			from, now = edge, next
		}
	}
	return append(runs, Run{from, most, now})
}

// change narrows down the speed at which a class ends, to well below what a drawing
// shows.
func change(is, not unit.Speed, class Class, at func(unit.Speed) Class) unit.Speed {
	for range 10 {
		mid := (is + not) / 2
		if at(mid) == class {
			is = mid
		} else {
			not = mid
		}
	}
	return not
}
