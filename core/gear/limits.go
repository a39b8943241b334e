package gear

import (
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// Limits are what a governing body allows for a ball. An empty Mass means that it sets
// none.
type Limits struct {
	Diameter stat.Interval[unit.Length]
	Mass     stat.Interval[unit.Mass]
}

// BallLimits have the names of Balls and the governing body as their label. Pool: World
// Pool-Billiard Association, equipment specifications. Snooker: World Professional
// Billiards and Snooker Association, rules, which require only that the balls of a set
// have equal weight. Carom: Union Mondiale de Billard, rules.
var BallLimits = []Named[Limits]{
	{"pool", "World Pool-Billiard Association", Limits{
		stat.Interval[unit.Length]{From: 2.245 * unit.Inch, To: 2.255 * unit.Inch},
		stat.Interval[unit.Mass]{From: 5.5 * unit.Ounce, To: 6 * unit.Ounce}}},
	{"snooker", "World Professional Billiards and Snooker Association", Limits{
		Diameter: stat.Interval[unit.Length]{From: 52.45 * unit.Millimetre, To: 52.55 * unit.Millimetre}}},
	{"carom", "Union Mondiale de Billard", Limits{
		stat.Interval[unit.Length]{From: 61 * unit.Millimetre, To: 61.5 * unit.Millimetre},
		stat.Interval[unit.Mass]{From: 205 * unit.Gram, To: 220 * unit.Gram}}},
}
