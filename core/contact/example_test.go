package contact_test

import (
	"fmt"

	"pivotbench/core/contact"
	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A sliding ball with right english meets an object ball full on and throws it to the
// left.
func ExampleCollide() {
	const radius = 1.125 * unit.Inch
	cue := motion.State{Vel: vec.V{Y: 1.5}, Spin: vec.V{Z: 30}}
	normal, err := contact.Normal(0, 0, radius)
	if err != nil {
		fmt.Println(err)
		return
	}
	hit, err := contact.Collide(cue, normal, radius)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("object ball at %.2f m/s, thrown %.1f° to the left\n", hit.Object.Vel.Y, -hit.Throw/unit.Degree)
	// Output:
	// object ball at 1.46 m/s, thrown 3.0° to the left
}
