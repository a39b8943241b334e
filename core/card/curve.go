package card

import (
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Curve is effective squirt as a function of distance at one speed. Effective squirt is
// squirt minus swerve.
type Curve struct {
	Speed  unit.Speed
	Points []Point
}

// A Point is one point of a curve.
type Point struct {
	Dist unit.Length
	Net  unit.Angle
}

// Curves returns the effective squirt of a shot at several speeds. A curve ends where the
// ball stops.
func Curves(s *shot.Shot, dists []unit.Length, speeds []unit.Speed) ([]Curve, error) {
	var out []Curve
	for _, v := range speeds {
		at := *s
		at.Speed, at.ByStroke = v, false
		var res shot.Result
		shot.Play(&at, &res)
		if res.Launched != nil {
			return nil, res.Launched
		}
		c := Curve{Speed: v}
		for _, d := range dists {
			when, err := res.Path.AtCircle(d)
			if err != nil {
				break
			}
			there, _ := res.Path.At(when)
			// Squirt minus swerve is heading minus bearing.
			c.Points = append(c.Points, Point{d, res.Reading.Heading.Value - motion.Bearing(there.Pos)})
		}
		out = append(out, c)
	}
	return out, nil
}
