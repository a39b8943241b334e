package margin

import (
	"slices"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// A Crossing is the middle part of the strokes at one distance: an interval of the
// sideways offsets at which they cross the circle of that radius.
type Crossing struct {
	Dist unit.Length
	stat.Interval[unit.Length]
	Reach float64 // share of the strokes that get there at all
}

// Band returns the interval that holds a share of the strokes, such as 0.9, at each
// distance, with equal shares beyond it on the two sides. It leaves out distances that no
// stroke reaches.
func (s *Sampler) Band(meant *shot.Shot, sc Scatter, share float64, dists []unit.Length) []Crossing {
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
	out := make([]Crossing, 0, len(dists))
	for d, xs := range offsets {
		if len(xs) == 0 {
			continue
		}
		slices.Sort(xs)
		tail := (1 - share) / 2 * float64(len(xs)-1)
		out = append(out, Crossing{
			Dist: dists[d],
			Interval: stat.Interval[unit.Length]{
				From: unit.Length(between(xs, tail)),
				To:   unit.Length(between(xs, float64(len(xs)-1)-tail)),
			},
			Reach: float64(len(xs)) / float64(len(s.points)),
		})
	}
	return out
}

// between interpolates a sorted list linearly at a fractional index.
func between(xs []float64, at float64) float64 {
	i := int(at)
	if i+1 >= len(xs) {
		return xs[len(xs)-1]
	}
	return xs[i] + (xs[i+1]-xs[i])*(at-float64(i))
}
