package trial_test

import (
	"fmt"

	"pivotbench/core/scenario"
	"pivotbench/core/trial"
	"pivotbench/core/unit"
)

// Six tries off three bridges, with english to either side.
func ExamplePosterior_Add() {
	scene, _ := scenario.Parse("v=1&speed=12mph&elev=2deg&gap=2.5in")
	known := trial.Prior()
	for _, try := range []struct {
		bridge  unit.Length
		side    float64
		outcome trial.Outcome
	}{
		{9 * unit.Inch, 0.5, trial.Right}, {9 * unit.Inch, -0.5, trial.Left},
		{20 * unit.Inch, 0.5, trial.Left}, {20 * unit.Inch, -0.5, trial.Right},
		{13 * unit.Inch, 0.5, trial.Clean}, {13 * unit.Inch, -0.5, trial.Clean},
	} {
		s := scene.Shot()
		s.Hands.Bridge, s.Contact.Side = try.bridge, try.side
		next, err := known.Add(trial.Try{Shot: s, Outcome: try.outcome})
		if err != nil {
			fmt.Println(err)
			return
		}
		known = next
	}
	pivot := known.Pivot()
	fmt.Printf("pivot %.1f in, 90 %% between %.1f and %.1f in\n",
		pivot.Median/float64(unit.Inch), pivot.From/float64(unit.Inch), pivot.To/float64(unit.Inch))
	// Output:
	// pivot 12.7 in, 90 % between 11.2 and 14.5 in
}
