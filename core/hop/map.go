package hop

import (
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Run is a stretch of speeds of one class.
type Run struct {
	From, To unit.Speed
	Class    Class
}

// A Column is an elevation and its runs, from the lowest speed up.
type Column struct {
	Elevation unit.Angle
	Runs      []Run
}

// pieces is how finely a column is looked at before its changes are narrowed.
const pieces = 45

// Map is what becomes of a shot at every elevation given and every speed up to
// most, the rest as it is, over ratios of contact times; before is the distance
// it should be down by. An elevation at which the ball is never sent has one run
// that touches.
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
	from, now := unit.Speed(0), Touches // no speed, no hop
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

// change narrows down where a class is left, well below what a drawing shows.
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
