package instrument_test

import (
	"fmt"

	"pivotbench/core/gear"
	"pivotbench/core/instrument"
	"pivotbench/core/unit"
)

// A ball hit without topspin takes 0.61 s over 50 in, by thumb.
func ExampleSpeed() {
	cloth, _ := gear.Find(gear.Cloths, "normal")
	speed, err := instrument.Speed([]instrument.Run{{
		Dist: 50 * unit.Inch, Time: 0.61 * unit.Second, Press: instrument.Thumb, Cloth: cloth.Is,
	}}, 1.125*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f mph, 90 %% between %.1f and %.1f\n",
		speed.Median/unit.MilePerHour, speed.From/unit.MilePerHour, speed.To/unit.MilePerHour)
	// Output:
	// 5.8 mph, 90 % between 5.0 and 6.9
}
