package gear

import "pivotbench/core/unit"

// A Range is what a standard allows.
type Range[T ~float64] struct{ From, To T }

// Limits are a governing body's for a ball. An empty Mass: it names none.
type Limits struct {
	Diameter Range[unit.Length]
	Mass     Range[unit.Mass]
}

// BallLimits are by the same words as Balls, labelled by the body. Pool: World
// Pool-Billiard Association, equipment specifications. Snooker: World
// Professional Billiards and Snooker Association, rules, which ask only that
// the balls of a set weigh alike. Carom: Union Mondiale de Billard, rules.
var BallLimits = []Named[Limits]{
	{"pool", "World Pool-Billiard Association", Limits{
		Range[unit.Length]{2.245 * unit.Inch, 2.255 * unit.Inch},
		Range[unit.Mass]{5.5 * unit.Ounce, 6 * unit.Ounce}}},
	{"snooker", "World Professional Billiards and Snooker Association", Limits{
		Diameter: Range[unit.Length]{52.45 * unit.Millimetre, 52.55 * unit.Millimetre}}},
	{"carom", "Union Mondiale de Billard", Limits{
		Range[unit.Length]{61 * unit.Millimetre, 61.5 * unit.Millimetre},
		Range[unit.Mass]{205 * unit.Gram, 220 * unit.Gram}}},
}
