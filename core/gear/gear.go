// Package gear describes the things on the table: balls, cues, tips, cloths,
// tables, and the gate of two blocker balls. It has the published standards
// by name.
package gear

import "pivotbench/core/unit"

// A Ball is a solid uniform sphere.
type Ball struct {
	Radius unit.Length
	Mass   unit.Mass
}

// A Tip is the rounded end of a cue, a dome that meets the ball in a point.
type Tip struct {
	Dome        unit.Length // radius of the dome
	Width       unit.Length // diameter of the tip: contact can't be outside it
	Restitution float64     // share of the approach speed given back, 0 to 1
	Friction    float64     // chalked tip on ball: the hit slips beyond atan of it
}

// A Cue is its mass, its tip, and how it squirts: the natural pivot length it
// showed when measured at an offset.
type Cue struct {
	Mass      unit.Mass
	Tip       Tip
	Pivot     unit.Length // natural pivot length at PivotSpin
	PivotSpin float64     // contact offset it was measured at, in ball radii
}

// A Cloth is how the table's bed answers a ball.
type Cloth struct {
	Slide     float64       // coefficient of sliding friction
	Roll      float64       // rolling resistance, deceleration over gravity
	SpinDecay unit.SpinRate // how fast sidespin dies, on the cloth
	Rebound   float64       // coefficient of restitution of ball on bed
}

// A Table is a playing surface, measured between the cushions' noses.
type Table struct {
	Length, Width unit.Length
	Sights        int // spaces between sights along the length; 0: it has none
}

// A Gate is two blocker balls side by side across the aim line, the same size
// as the cue ball.
type Gate struct {
	Dist unit.Length // from the cue ball's centre at rest to the line of the blockers' centres; 0: no blockers
	Gap  unit.Length // clear width between them
}
