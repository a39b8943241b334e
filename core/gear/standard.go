package gear

import "pivotbench/core/unit"

// A Named is a standard with the name that links and menus use for it.
type Named[T any] struct {
	Name  string // as written in a link
	Label string // for people
	Is    T
}

// Balls are the cue balls by game.
//
// Pool: World Pool-Billiard Association, equipment specifications: 2.25 in
// (± 0.005), 5.5 to 6 oz; 170 g is the heavy end, as sold. Snooker: World
// Professional Billiards and Snooker Association, rules: 52.5 mm; the mass is
// common practice, no source. Carom: Union Mondiale de Billard, rules: 61 to
// 61.5 mm, 205 to 220 g.
var Balls = []Named[Ball]{
	{"pool", "Pool, 2¼ in", Ball{Radius: 1.125 * unit.Inch, Mass: 170 * unit.Gram}},
	{"snooker", "Snooker, 52.5 mm", Ball{Radius: 26.25 * unit.Millimetre, Mass: 142 * unit.Gram}},
	{"carom", "Carom, 61.5 mm", Ball{Radius: 30.75 * unit.Millimetre, Mass: 210 * unit.Gram}},
}

// Cloths are beds from fast to slow: common practice, no source. Mathavan, Jackson and
// Parkin, Am. J. Phys. 77 (2009) 788, measured about 0.18 to 0.25 for sliding and about
// 0.013 for rolling on a snooker cloth (from memory).
var Cloths = []Named[Cloth]{
	{"new", "New and fast", Cloth{Slide: 0.16, Roll: 0.008, SpinDecay: 8, Rebound: 0.5}},
	{"normal", "Broken in", Cloth{Slide: 0.2, Roll: 0.01, SpinDecay: 10, Rebound: 0.5}},
	{"worn", "Worn", Cloth{Slide: 0.23, Roll: 0.013, SpinDecay: 11, Rebound: 0.5}},
	{"damp", "Damp", Cloth{Slide: 0.26, Roll: 0.017, SpinDecay: 13, Rebound: 0.5}},
}

// Tables are playing surfaces by name. 9 ft and 8 ft: World Pool-Billiard
// Association, equipment specifications. 7 ft: common practice, no source.
// Snooker: World Professional Billiards and Snooker Association, rules, 11 ft
// 8½ in by 5 ft 10 in. Carom: Union Mondiale de Billard, rules, match table.
var Tables = []Named[Table]{
	{"9ft", "9 ft pool", Table{Length: 100 * unit.Inch, Width: 50 * unit.Inch, Sights: 8}},
	{"8ft", "8 ft pool", Table{Length: 92 * unit.Inch, Width: 46 * unit.Inch, Sights: 8}},
	{"7ft", "7 ft pool", Table{Length: 78 * unit.Inch, Width: 39 * unit.Inch, Sights: 8}},
	{"snooker", "12 ft snooker", Table{Length: 140.5 * unit.Inch, Width: 70 * unit.Inch}},
	{"carom", "Carom match", Table{Length: 2.84 * unit.Metre, Width: 1.42 * unit.Metre, Sights: 8}},
}

// Find returns the standard with the name that a link uses.
func Find[T any](list []Named[T], name string) (Named[T], bool) {
	for _, n := range list {
		if n.Name == name {
			return n, true
		}
	}
	return Named[T]{}, false
}
