package margin

import (
	"slices"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Span is where the middle of the strokes pass at one distance: between two
// sideways offsets on the circle of that radius.
type Span struct {
	Dist     unit.Length
	From, To unit.Length
	Reach    float64 // share of the strokes that get there at all
}

// Band is where a share of the strokes go, such as 0.9 for nine of ten, with
// as many missing on either side. Distances nobody reaches are left out.
func (s *Sampler) Band(meant *shot.Shot, sc Scatter, share float64, dists []unit.Length) []Span {
	var path motion.Path
	offsets := make([][]float64, len(dists))
	for i := range s.points {
		tried := s.stroke(i, meant, &sc)
		if tried.Send(&path) != nil {
			continue
		}
		for d, dist := range dists {
			if when, err := path.AtCircle(dist); err == nil {
				at, _ := path.At(when)
				offsets[d] = append(offsets[d], at.Pos.X)
			}
		}
	}
	out := make([]Span, 0, len(dists))
	for d, xs := range offsets {
		if len(xs) == 0 {
			continue
		}
		slices.Sort(xs)
		tail := (1 - share) / 2 * float64(len(xs)-1)
		out = append(out, Span{
			Dist:  dists[d],
			From:  unit.Length(between(xs, tail)),
			To:    unit.Length(between(xs, float64(len(xs)-1)-tail)),
			Reach: float64(len(xs)) / float64(len(s.points)),
		})
	}
	return out
}

// between reads a sorted list at a place between two of its entries.
func between(xs []float64, at float64) float64 {
	i := int(at)
	if i+1 >= len(xs) {
		return xs[len(xs)-1]
	}
	return xs[i] + (xs[i+1]-xs[i])*(at-float64(i))
}
