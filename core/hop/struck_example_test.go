package hop_test

import (
	"fmt"

	"pivotbench/core/hop"
	"pivotbench/core/unit"
)

// A centre hit at 40°: the longer the tip's contact compared with the bed's, the less is
// left of the hop.
func ExamplePressed() {
	s := hopping()
	for _, ratio := range []float64{0.5, 1, 1.5, 2} {
		p, cue, err := hop.Pressed(&s, ratio)
		if err != nil {
			fmt.Println(err)
			return
		}
		up := p.Vel.Z * float64(cue)
		fmt.Printf("%.1f: rises %3.0f mm\n", ratio, up*up/(2*unit.Gravity)*1000)
	}
	// Output:
	// 0.5: rises 208 mm
	// 1.0: rises 203 mm
	// 1.5: rises  68 mm
	// 2.0: rises   1 mm
}
