package player

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// A family is the strokes that share a path: turning the cue turns it, and left english
// mirrors it. For each draw it has the shot as it is really played with right english, and
// the bearing at the line with the cue not turned.
type family struct {
	real    []shot.Shot
	bearing []float64 // in radians; NaN when the ball does not get there
}

func (f *Fit) family(line unit.Length, speed unit.Speed, side float64) family {
	out := family{make([]shot.Shot, len(f.testers)), make([]float64, len(f.testers))}
	meant := f.Shot(line, speed, math.Abs(side), 1)
	var path motion.Path
	for i := range f.testers {
		s := &out.real[i]
		*s = f.testers[i].Real(meant, f.setUp)
		out.bearing[i] = math.NaN()
		turn, err := s.Hands.Apply(s.Axis(), s.Ball.Radius)
		if err != nil || s.Send(&path) != nil {
			continue
		}
		if way, err := bearing(&path, line); err == nil {
			out.bearing[i] = float64(way - turn.Heading)
		}
	}
	return out
}

// crosses returns where the ball of each draw is expected at the line, in metres to the
// right, with english to a side and a felt share; NaN when it does not get there.
func (w *family) crosses(testers []sitting.Tester, line unit.Length, side, felt float64) []float64 {
	out := make([]float64, len(testers))
	for i := range testers {
		s, t := &w.real[i], &testers[i]
		h := s.Hands
		h.Back, h.Front = felt, 1-felt
		turn, err := h.Moved(math.Exp(t.Front)).Apply(s.Axis(), s.Ball.Radius)
		if err != nil {
			out[i] = math.NaN()
			continue
		}
		way := math.Copysign(1, side)*(w.bearing[i]+float64(turn.Heading)) + float64(t.Aim)
		out[i] = float64(line) * math.Tan(way)
	}
	return out
}

// noiseOf returns the variance of a proposal's outcome about where its ball is expected in
// each draw. ok is false when the ball may well not be seen there.
func (o *Outlook) noiseOf(f *Fit, c *Choice, p Proposal, at []float64) (noise float64, ok bool) {
	reached := 0
	for _, x := range at {
		if !math.IsNaN(x) {
			reached++
		}
	}
	mean, variance := moments(at)
	if 2*reached < len(at) || p.Kind == sitting.ByMark && !(math.Abs(mean)+math.Sqrt(variance) < float64(c.Across)/2) {
		return 0, false
	}
	spread := float64(p.Line) * o.spread
	if p.Kind == sitting.ByGate {
		return trinary(at, max(0, float64(f.on.Gate.Gap/2-f.on.Ball.Radius)), spread), true
	}
	return spread*spread + float64(c.Read*c.Read), true
}

// trinary returns the variance of the noise with which a mark would tell as much as the
// outcome at a gate does, from where the ball is expected in each draw. half is half the
// width of the centre's corridor, spread the standard deviation of the ball's position.
func trinary(at []float64, half, spread float64) float64 {
	_, variance := moments(at)
	var chance, sum [3]float64
	n, total := 0.0, 0.0
	for _, x := range at {
		if math.IsNaN(x) {
			continue
		}
		left, right := stat.Normal((-half-x)/spread), stat.Normal((x-half)/spread)
		for o, p := range [3]float64{left, 1 - left - right, right} {
			chance[o], sum[o] = chance[o]+p, sum[o]+p*x
		}
		n, total = n+1, total+x
	}
	told := 0.0
	for o := range chance {
		if chance[o] > 0 {
			apart := sum[o]/chance[o] - total/n
			told += chance[o] / n * apart * apart
		}
	}
	return variance*variance/max(told, 1e-12) - variance
}

// covariance returns the covariance of lists of equally probable values. Where one is not
// a number it counts as its list's mean.
func covariance(values [][]float64) [][]float64 {
	for _, list := range values {
		mean, _ := moments(list)
		for i := range list {
			if list[i] -= mean; math.IsNaN(list[i]) {
				list[i] = 0
			}
		}
	}
	out := make([][]float64, len(values))
	for i := range values {
		out[i] = make([]float64, len(values))
		for j := range i + 1 {
			for k, v := range values[i] {
				out[i][j] += v * values[j][k] / float64(len(values[i]))
			}
			out[j][i] = out[i][j]
		}
	}
	return out
}
