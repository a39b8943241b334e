// Package gear describes the things on the table: balls, cues, tips, cloths, tables, and
// the gate of two blocker balls. It also has published standards, by name.
package gear

import "pivotbench/core/unit"

// A Ball is a solid uniform sphere.
type Ball struct {
	Radius unit.Length
	Mass   unit.Mass
}

// A Tip is the rounded end of a cue, a dome that touches the ball at a point.
type Tip struct {
	Dome        unit.Length // radius of the dome
	Width       unit.Length // diameter of the tip; the contact must lie within it
	Restitution float64     // coefficient of restitution between tip and ball, 0 to 1
	Friction    float64     // coefficient of friction between chalked tip and ball; the hit slips beyond its arctangent
}

// A Cue is its mass, its tip, and how it squirts: its natural pivot length, as measured
// at one offset.
type Cue struct {
	Mass      unit.Mass
	Tip       Tip
	Pivot     unit.Length // natural pivot length at PivotSpin
	PivotSpin float64     // contact offset at which Pivot was measured, in ball radii
}

// A Cloth is how the table's bed acts on a ball.
type Cloth struct {
	Slide     float64       // coefficient of sliding friction
	Roll      float64       // coefficient of rolling resistance: deceleration divided by gravity
	SpinDecay unit.SpinRate // decay of sidespin while the ball is on the cloth
	Rebound   float64       // coefficient of restitution between ball and bed
}

// A Table is a playing surface, measured between the cushions' noses.
type Table struct {
	Length, Width unit.Length
	Sights        int // number of spaces between sights along the length; 0 if there are no sights
}

// A Gate is two blocker balls side by side across the aim line, the same size
// as the cue ball.
type Gate struct {
	Dist unit.Length // from the cue ball's centre at rest to the line of the blockers' centres; 0 for no blockers
	Gap  unit.Length // clear width between them
}
