package cues_test

import (
	"fmt"

	"pivotbench/core/cues"
	"pivotbench/core/gear"
	"pivotbench/core/unit"
)

// Two measurements of a cue come to one, nearer the surer of them.
func ExampleCombine() {
	ball := gear.Ball{Radius: 1.125 * unit.Inch, Mass: 170 * unit.Gram}
	cue := gear.Cue{Tip: gear.Tip{Dome: 10.6 * unit.Millimetre}, PivotSpin: 0.5}
	var measured []cues.EndMass
	for _, m := range [][3]unit.Length{{12, 10, 14.5}, {13, 12.2, 13.8}} {
		cue.Pivot = m[0] * unit.Inch
		e, err := cues.Measured(ball, cue, m[1]*unit.Inch, m[2]*unit.Inch)
		if err != nil {
			fmt.Println(err)
			return
		}
		measured = append(measured, e)
	}
	both, err := cues.Combine(measured)
	if err != nil {
		fmt.Println(err)
		return
	}
	pivot := both.Pivot(ball, cue.Tip, 0.5)
	fmt.Printf("pivot %.1f in, 90 %% between %.1f and %.1f in\n", pivot.Median/unit.Inch, pivot.From/unit.Inch, pivot.To/unit.Inch)
	// Output:
	// pivot 12.9 in, 90 % between 12.2 and 13.7 in
}
