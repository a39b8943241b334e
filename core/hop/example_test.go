package hop_test

import (
	"fmt"

	"pivotbench/core/hop"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
)

// For a gap of 2 in with the butt 40° up: how high the ball's centre has to be on the
// centre line, and the lowest speed that clears.
func ExampleLeastSpeed() {
	scene, _ := scenario.Parse("v=1&side=0&elev=40deg&gate=12in&gap=2in")
	s := scene.Shot()
	aside := s.Gate.Gap/2 + s.Ball.Radius
	fmt.Printf("needs %.1f mm\n", hop.HeightOver(aside, s.Ball.Radius)/unit.Millimetre)
	least, err := hop.LeastSpeed(&s, hop.InTurn)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("clears from %.1f mph\n", least/unit.MilePerHour)
	// Output:
	// needs 18.8 mm
	// clears from 6.8 mph
}
