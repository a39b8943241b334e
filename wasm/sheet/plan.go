package sheet

import (
	"math"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// An Extent is how much of the table a sheet shows: Up from the cue ball's centre towards
// the target, Down towards the player as far as the bridge, and Grip from there to the
// grip hand. A program keeps it while the user drags, so that the table does not move
// under the finger.
type Extent struct{ Up, Down, Grip unit.Length }

// Toward returns the extent part of the way to another.
func (e Extent) Toward(to Extent, part float64) Extent {
	between := func(a, b unit.Length) unit.Length { return a + (b-a)*unit.Length(part) }
	return Extent{between(e.Up, to.Up), between(e.Down, to.Down), between(e.Grip, to.Grip)}
}

// Fit returns the extent for a scenario, in whole steps, so that small changes leave the
// table where it is.
func Fit(s *scenario.Scenario) Extent {
	const step = 4 * unit.Inch
	round := func(l unit.Length) unit.Length {
		return step * unit.Length(math.Ceil(float64(l/step)))
	}
	r := s.GearBall().Radius
	return Extent{
		Up:   round(max(s.Dist, s.Gate) + r),
		Down: round(s.Bridge + r),
		Grip: round(s.Grip),
	}
}

// fit returns the extent for a scenario in a view, including the pocket if the object
// ball is shown, and the lines of the strokes being measured.
func (v View) fit(s *scenario.Scenario) Extent {
	ext := Fit(s)
	ext.Up = max(ext.Up, v.Sitting.Placed.Line)
	for _, m := range v.Sitting.Marks {
		ext.Up = max(ext.Up, m.Line)
	}
	if v.Object {
		ball := 2 * s.GearBall().Radius
		pocket := s.Dist + (ball+s.Object)*unit.Length(s.Cut.Cos())
		ext.Up = max(ext.Up, pocket+2*ball)
	}
	return ext
}

const (
	// gripScale is how much shorter the distance between the hands is drawn than the
	// table. The cue is drawn with a break, like a long bar on a technical drawing.
	gripScale = 0.2
	gripLeast = 26 // pixels
)

// A plan maps the table to the sheet.
type plan struct {
	scale   float64 // pixels per metre along the table
	stretch float64 // of the sideways direction
	origin  Point   // of the cue ball's centre at rest
	ball    float64 // radius of a ball in pixels
}

func newPlan(s *scenario.Scenario, v View) plan {
	ext := v.Extent
	if ext == (Extent{}) {
		ext = v.fit(s)
	}
	top, foot := 44.0, 26.0
	if v.Board {
		top, foot = 70, 44
	}
	span := float64(ext.Up) + float64(ext.Down) + gripScale*float64(ext.Grip)
	scale := max(v.Height-top-foot-gripLeast, 60) / span
	return plan{
		scale:   scale,
		stretch: float64(max(v.Stretch, 1)),
		origin:  Point{math.Round(v.Width / 2), top + float64(ext.Up)*scale},
		// A ball smaller than this cannot be read, so it becomes a symbol.
		ball: max(float64(s.GearBall().Radius)*scale, 6.5),
	}
}

// at returns where a place on the table is on the sheet.
func (p *plan) at(x, y float64) Point {
	return Point{p.origin.X + x*p.scale*p.stretch, p.origin.Y - y*p.scale}
}

func (p *plan) vec(v vec.V) Point { return p.at(v.X, v.Y) }

// ray returns the point at a distance and plan angle from the start.
func (p *plan) ray(distance float64, a unit.Angle) Point {
	return p.at(distance*a.Sin(), distance*a.Cos())
}

// toward returns the point so many pixels from a in the direction of b.
func toward(a, b Point, pixels float64) Point {
	d := math.Hypot(b.X-a.X, b.Y-a.Y)
	if d == 0 {
		return a
	}
	return Point{a.X + (b.X-a.X)*pixels/d, a.Y + (b.Y-a.Y)*pixels/d}
}
