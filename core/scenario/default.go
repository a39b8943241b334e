package scenario

import (
	"slices"
	"strings"

	"pivotbench/core/margin"
	"pivotbench/core/unit"
)

// Default returns the scenario of an empty link. These values never change within v=1,
// since an old link that leaves out a key means them. The shot, and the scatter of a fair
// club player, are common practice, no source.
func Default() Scenario {
	return Scenario{
		Table: "9ft", Ball: "pool", Cloth: "normal",
		Pivot: 12 * unit.Inch, PivotSpin: 0.5,
		CueMass: 540 * unit.Gram,
		Tip:     10.6 * unit.Millimetre, TipWidth: 13 * unit.Millimetre,
		Bounce: 0.75, Chalk: 0.6,
		Side: 0.4, Elev: 3 * unit.Degree, Speed: 7 * unit.MilePerHour,
		Bridge: 12 * unit.Inch, Grip: 30 * unit.Inch, Back: 1,
		Dist: 36 * unit.Inch, Gate: 30 * unit.Inch, Gap: 2.75 * unit.Inch,
		Object: 24 * unit.Inch, Pocket: 4.5 * unit.Inch,
		Scatter: margin.Scatter{
			Tip: 1.5 * unit.Millimetre, Speed: 0.06, Bridge: 0.4 * unit.Inch,
			Elev: 0.7 * unit.Degree, Aim: 0.15 * unit.Degree,
		},
		Units: "in",
	}
}

// A Preset is an example shot, as a link.
type Preset struct {
	Label, Note, Link string
	MostSide          bool // played with the most english the player can: margin.PlayableSide
}

// On returns the preset as it is played with what a user has: the preset's stroke,
// stance, target, gate and pocket, with the user's units, scatter, further cues,
// table and cue. The table is the named table, ball and cloth with their
// overrides; the cue is all its values and its name. A preset that gives one of
// these values itself brings the whole group: the table, or the cue. What does not
// fit the user's table is moved onto it, and the problems say so.
func (p Preset) On(user *Scenario) (Scenario, []*Problem) {
	out, _ := Parse(p.Link)
	out.Units, out.Scatter, out.More = user.Units, user.Scatter, user.More
	for _, part := range []Part{TablePart, CuePart} {
		if !slices.ContainsFunc(partKeys[part], func(key string) bool { return strings.Contains(p.Link, "&"+key+"=") }) {
			out.Take(part, user)
		}
	}
	if sh := out.Shot(); p.MostSide {
		if side, err := margin.PlayableSide(&sh, out.Scatter.Tip); err == nil && side > 0 {
			out.Side = side
		}
	}
	return out, out.Fit()
}

// Presets are the example shots.
var Presets = []Preset{
	{Label: "Starting shot", Note: "medium speed, right english, 12 in bridge", Link: "v=1"},
	{Label: "Bridge too short", Note: "the cue turns more than squirt makes up for", Link: "v=1&bridge=8in"},
	{Label: "Bridge too long", Note: "the cue turns less than squirt pushes back", Link: "v=1&bridge=20in"},
	{Label: "Parallel shift", Note: "the cue does not turn: squirt alone", Link: "v=1&back=0"},
	{Label: "Soft, butt raised", Note: "swerve bends the ball back further than squirt pushed it", Link: "v=1&elev=10deg&speed=3.5mph"},
	{Label: "Draw with left english", Note: "below centre, left side", Link: "v=1&side=-0.35&height=-0.3&speed=9mph"},
	{Label: "Lower-squirt cue", Note: "the same stroke with a 19 in pivot length", Link: "v=1&pivot=19in"},
	{Label: "Measuring at a gate", Note: "a firm stroke and a narrow gap show most about a cue", Link: "v=1&elev=2deg&speed=12mph&gap=2.5in", MostSide: true},
	{Label: "Hop past the edge", Note: "the gap is too narrow to roll through; clear the line of flight and ask the house first", Link: "v=1&side=0&elev=40deg&speed=14mph&gate=12in&gap=2in"},
}
