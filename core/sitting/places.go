package sitting

import (
	"cmp"
	"math"
	"slices"

	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// sureOfPlaces is the Bayes factor above which strokes count as landing in two places. Of
// sittings in which they land in one at most one in fifty exceeds it (Markov's inequality).
const sureOfPlaces = 50

// apart is the standard deviation of the angle between two places, as seen from the ball's
// start. Common practice, no source: another cue or english, or another bridge.
const apart = 3 * math.Pi / 180

// twoPlaces compares, for marks of the same shot with the same cue in one sitting, one place where they
// land with two, and returns the Bayes factor for two: any of the shots may have them,
// with a probability of a half. It returns the strokes in the place with fewer.
func (p *Posterior) twoPlaces() (factor float64, there []int) {
	type alike struct {
		cue, sitting int
		shot         shot.Shot
		line         unit.Length
	}
	var order []alike
	groups := map[alike][]int{}
	for _, i := range p.sample(patterned) {
		k := &p.strokes[i].Stroke
		if m, ok := k.Seen.(Mark); ok {
			key := alike{k.Cue, k.Sitting, k.Shot, m.Line}
			if groups[key] == nil {
				order = append(order, key)
			}
			groups[key] = append(groups[key], i)
		}
	}
	factor = 1
	for _, key := range order {
		f, strokes := p.split(groups[key])
		factor *= (1 + f) / 2
		if f > 1 {
			there = append(there, strokes...)
		}
	}
	slices.Sort(there)
	return factor, there
}

// A spot is where some marks in a row are taken to land: a product of Normal densities, as a
// function of their common mean.
type spot struct {
	likelihood float64 // integrated over the mean
	mean       float64
	precision  float64 // of the mean
}

// split is twoPlaces for the marks of one shot. The scatter has its prior, and the first
// and the last of them in a row may be recorded wrongly. Each place has at least two.
func (p *Posterior) split(group []int) (factor float64, there []int) {
	const least, steps = 2, 16
	n := len(group)
	if n < 2*least {
		return 1, nil
	}
	mark := func(i int) Mark { return p.strokes[i].Seen.(Mark) }
	slices.SortFunc(group, func(a, b int) int { return cmp.Compare(mark(a).At, mark(b).At) })
	odd := wrong * float64(mark(group[0]).Line/mark(group[0]).Across) // the density of a wrong mark, per radian
	mostOdd := 1 + n/10
	one, two := 0.0, make([]float64, n) // the likelihood of one place, and of two by where the second begins
	for step := range steps {
		sigma := float64(ScatterLeast) * math.Pow(float64(ScatterMost/ScatterLeast), (float64(step)+0.5)/steps)
		// sums[i] has, of the first i marks, the precision, the mean times that, the square
		// times that, and the logarithm of the precision.
		sums := make([][4]float64, n+1)
		for i, k := range group {
			m := mark(k)
			at, read := float64(m.At/m.Line), float64(m.Read/m.Line)
			per := 1 / (sigma*sigma + read*read)
			for j, v := range [4]float64{per, at * per, at * at * per, math.Log(per / (2 * math.Pi))} {
				sums[i+1][j] = sums[i][j] + v
			}
		}
		of := func(from, to int) spot {
			var s [4]float64
			for j := range s {
				s[j] = sums[to][j] - sums[from][j]
			}
			log := float64(to-from)*math.Log(1-wrong) + (s[3]+s[1]*s[1]/s[0]-s[2]+math.Log(2*math.Pi/s[0]))/2
			return spot{math.Exp(log), s[1] / s[0], s[0]}
		}
		for low := range mostOdd + 1 {
			for high := range mostOdd + 1 - low {
				from, to := low, n-high
				if to <= from {
					continue
				}
				odds := math.Pow(odd, float64(low+high))
				one += odds * of(from, to).likelihood
				for begin := from + least; begin <= to-least; begin++ {
					a, b := of(from, begin), of(begin, to)
					sd := math.Sqrt(apart*apart + 1/a.precision + 1/b.precision)
					two[begin] += odds * a.likelihood * b.likelihood * stat.NormalDensity((b.mean-a.mean)/sd) / sd / float64(to-from-2*least+1)
				}
			}
		}
	}
	begin, sum := 0, 0.0
	for i, v := range two {
		sum += v
		if v > two[begin] {
			begin = i
		}
	}
	if there = group[:begin]; n-begin < begin {
		there = group[begin:]
	}
	return sum / one, there
}
