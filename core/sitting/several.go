package sitting

import (
	"math"
	"slices"
	"sync"

	"pivotbench/core/cues"
	"pivotbench/core/stat"
)

// MostSittings is the largest number of sittings in one posterior. Each adds unknowns
// of its own, and the points of a cloud are too few for many.
const MostSittings = 4

// mixing returns how the set-up error of each sitting is made of independent standard
// Normal ones, of its own sitting and of those before it. Any two sittings then have the
// correlation cues.Habit, as is assumed where measurements of several days are combined.
var mixing = func() stat.Root {
	cov := make([][]float64, MostSittings)
	for s := range cov {
		cov[s] = make([]float64, MostSittings)
		for t := range cov[s] {
			cov[s][t] = cues.Habit
		}
		cov[s][s] = 1
	}
	root, _ := stat.Cholesky(cov)
	return root
}()

// own returns the index, among the free unknowns, of the part of a set-up error that
// belongs to one sitting. Those of the first sitting come first, and those of further
// sittings follow the player's unknowns.
func own(sitting, which int) int {
	if sitting == 0 {
		return which
	}
	return allUnknowns + (sitting-1)*setUps + which
}

// inSitting returns the unknowns as they are in one sitting, made of the free ones.
func inSitting(free []float64, sitting int) (z [allUnknowns]float64) {
	copy(z[:], free)
	if sitting == 0 {
		return z
	}
	for d := range setUps {
		z[d] = 0
		for s, part := range mixing[sitting][:sitting+1] {
			z[d] += part * free[own(s, d)]
		}
	}
	return z
}

// further returns points of the standard Normal distribution for the set-up errors of the
// further sittings: twice as many as a cloud has, for the two parts of its mixture. Halton
// sequences in so many large bases would follow each other, so these are Kronecker
// sequences on square roots of primes that spread does not use.
var further = sync.OnceValue(func() [][]float64 {
	all := make([][]float64, 2*points)
	for i := range all {
		for _, prime := range [(MostSittings - 1) * setUps]float64{47, 53, 59, 61, 67, 71, 73, 79, 83, 89, 97, 101, 103, 107, 109} {
			_, u := math.Modf(float64(i+1) * math.Sqrt(prime))
			all[i] = append(all[i], u)
		}
	}
	return normal(all)
})

// withMore returns points with the unknowns of further sittings, which are distributed
// like their prior. part is that of the mixture, 0 or 1.
func withMore(all [][]float64, sittings, part int) [][]float64 {
	out := make([][]float64, points)
	for i, more := range further()[part*points:][:points] {
		have := len(all[i]) - allUnknowns
		out[i] = slices.Concat(all[i], more[have:(sittings-1)*setUps])
	}
	return out
}

// extended returns the cloud for more sittings. No stroke so far depends on those, so the
// weights stay.
func (c *cloud) extended(sittings int) *cloud {
	next := &cloud{free: withMore(c.free, sittings, 0), logWeight: c.logWeight}
	next.prepare(sittings)
	return next
}
