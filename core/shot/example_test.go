package shot_test

import (
	"fmt"

	"pivotbench/core/gear"
	"pivotbench/core/shot"
	"pivotbench/core/stance"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

func ExamplePlay() {
	s := shot.Shot{
		Ball: gear.Ball{Radius: 1.125 * unit.Inch, Mass: 170 * unit.Gram},
		Cue: gear.Cue{
			Mass:  540 * unit.Gram,
			Tip:   gear.Tip{Dome: 10.6 * unit.Millimetre, Width: 13 * unit.Millimetre, Restitution: 0.75, Friction: 0.6},
			Pivot: 12 * unit.Inch, PivotSpin: 0.5,
		},
		Cloth:     gear.Cloth{Slide: 0.2, Roll: 0.01, SpinDecay: 10, Rebound: 0.5},
		Contact:   strike.Contact{Side: 0.4},
		Elevation: 3 * unit.Degree,
		Hands:     stance.Hands{Bridge: 12 * unit.Inch, Grip: 30 * unit.Inch, Back: 1},
		Speed:     7 * unit.MilePerHour,
		Dist:      36 * unit.Inch,
		Gate:      gear.Gate{Dist: 30 * unit.Inch, Gap: 2.75 * unit.Inch},
	}
	var res shot.Result
	shot.Play(&s, &res)
	r := &res.Reading
	fmt.Printf("heading %.2f°, squirt %.2f°, swerve %.2f°\n",
		r.Heading.Value/unit.Degree, r.Squirt.Value/unit.Degree, r.Swerve.Value/unit.Degree)
	fmt.Printf("arrives %.1f mm to the right: %s\n", r.Arrival.Value/unit.Millimetre, r.Verdict.Value)
	fmt.Printf("aimed right off a %.1f in bridge\n", r.PivotEffective.Value/unit.Inch)
	fmt.Printf("throws an object ball straight ahead %.2f° to the left\n", -r.Throw.Value/unit.Degree)
	// Output:
	// heading 2.69°, squirt 2.82°, swerve 0.34°
	// arrives 3.4 mm to the right: clean
	// aimed right off a 13.1 in bridge
	// throws an object ball straight ahead 0.65° to the left
}
