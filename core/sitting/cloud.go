package sitting

import (
	"math"
	"slices"
	"sync"

	"pivotbench/core/stat"
)

// points is the number of points in a cloud.
const points = 2048

// primes are the bases of the cloud's Halton sequence, one per unknown. Small
// bases fill their axis most evenly, so they go to the player's unknowns, which
// only the points represent.
var primes = []int{7, 17, 5, 11, 13, 2, 3, 19}

// A cloud is a set of weighted points that represents the prior of the unknowns that
// strokes share. Once strokes have narrowed the unknowns down, most points are drawn
// from the narrowed region, with smaller weights to compensate (importance sampling).
//
// Source: Owen and Zhou, J. Amer. Statist. Assoc. 95 (2000) 135, for sampling
// from a mixture that contains the prior and dividing by the density of the whole
// mixture, which bounds the weights.
type cloud struct {
	free      [][]float64 // independent unknowns of each point, each with a standard Normal prior
	logWeight [points]float64
	of        []*aspect       // what the points are in each sitting
	sigma     [points]float64 // player's scatter of direction, in radians
}

// An aspect is what the points of a cloud are in one sitting.
type aspect struct {
	z   [points][allUnknowns]float64
	row [points][terms]float64 // polynomial terms of the set-up errors
}

// fromPrior is the share of points that are always drawn from the prior.
const fromPrior = 1. / 4

// spread returns points of the standard Normal distribution in the unknowns of one
// sitting, spread evenly. They are the same every time, so each shift is computed once.
func spread(shift int) func() [][]float64 {
	return sync.OnceValue(func() [][]float64 { return normal(stat.Halton(points, primes, shift)) })
}

// normal replaces numbers between 0 and 1 by those quantiles of the standard Normal
// distribution.
func normal(all [][]float64) [][]float64 {
	for _, u := range all {
		for d := range u {
			u[d] = stat.NormalQuantile(u[d])
		}
	}
	return all
}

// The two parts of a cloud's mixture use Halton sequences with different shifts:
// every fourth point of a single sequence would cover only a quarter of an axis whose
// base is 2.
var forPrior, forRest = spread(0), spread(1)

// fromThePrior returns a cloud drawn from the prior, for one sitting. It is the same every
// time.
var fromThePrior = sync.OnceValue(func() *cloud {
	c := &cloud{free: forPrior()}
	c.prepare(1)
	return c
})

// prepare computes what the points are in each sitting, and their scatter, which every
// stroke uses.
func (c *cloud) prepare(sittings int) {
	for s := range sittings {
		a := &aspect{}
		for i, free := range c.free {
			a.z[i] = inSitting(free, s)
			a.row[i] = row(&a.z[i])
		}
		c.of = append(c.of, a)
	}
	for i, free := range c.free {
		c.sigma[i] = float64(ScatterLeast) * math.Pow(float64(ScatterMost/ScatterLeast), stat.Normal(free[scatter]))
	}
}

// now returns what the points are in the newest sitting.
func (c *cloud) now() *aspect { return c.of[len(c.of)-1] }

// around draws a cloud that is densest where the posterior of the unknowns is,
// given its mean and the root of its covariance.
func around(mean []float64, root stat.Root, sittings int) *cloud {
	c := &cloud{free: make([][]float64, points)}
	const prior = points * fromPrior
	far, near := forPrior(), forRest()
	if sittings > 1 {
		far, near = withMore(far, sittings, 0), withMore(near, sittings, 1)
	}
	logRoot := 0.0
	for d := range mean {
		logRoot += math.Log(root[d][d])
	}
	for i := range c.free {
		var away []float64 // from the posterior's centre, in its standard deviations
		if i < prior {
			c.free[i] = far[i]
			off := slices.Clone(far[i])
			for d := range off {
				off[d] -= mean[d]
			}
			away = root.Solve(off)
		} else {
			away = near[i-prior]
			c.free[i] = root.Apply(away)
			for d := range mean {
				c.free[i][d] += mean[d]
			}
		}
		square := 0.0 // of the distance from the prior's centre, less that from the posterior's
		for d, v := range c.free[i] {
			square += v*v - away[d]*away[d]
		}
		// The density of the prior divided by that of the mixture.
		c.logWeight[i] = -math.Log(fromPrior + (1-fromPrior)*math.Exp(square/2-logRoot))
	}
	c.prepare(sittings)
	return c
}

// bias returns the constant aim bias at a point, in radians.
func (c *cloud) bias(i int) float64 { return float64(AimSpread) * c.free[i][aim] }

// moments returns the mean of the free unknowns and the Cholesky root of their
// covariance under weights that sum to one. The covariance is widened so that the
// next cloud covers the tails.
func (c *cloud) moments(weight *[points]float64) (mean []float64, root stat.Root) {
	n := len(c.free[0])
	mean, cov := make([]float64, n), make([][]float64, n)
	for i, w := range weight {
		for d, v := range c.free[i] {
			mean[d] += w * v
		}
	}
	for d := range cov {
		cov[d] = make([]float64, n)
	}
	off := make([]float64, n)
	for i, w := range weight {
		for d, v := range c.free[i] {
			off[d] = v - mean[d]
			row, by := cov[d][:d+1], w*off[d]
			for e := range row {
				row[e] += by * off[e]
			}
		}
	}
	const widen, least = 1.2, 1e-4
	for d := range cov {
		for e := range d + 1 {
			cov[d][e] *= widen
			cov[e][d] = cov[d][e]
		}
		cov[d][d] += least
	}
	root, _ = stat.Cholesky(cov)
	return mean, root
}

// tempered returns weights raised to a power of at most 1, so that their effective sample
// size is not less than enough. Where strokes contradict each other, all the weight may
// be on a few points that happen to fit best: their interval would be far too narrow, and
// their mean and covariance would put the next cloud beside the posterior.
func tempered(weight *[points]float64) [points]float64 {
	const enough = points / 16
	out := *weight
	for power := 1.0; effective(&out) < enough; {
		power *= 0.7
		sum := 0.0
		for i, w := range weight {
			out[i] = math.Pow(w, power)
			sum += out[i]
		}
		for i := range out {
			out[i] /= sum
		}
	}
	return out
}

// effective returns the effective sample size: the number of equally weighted
// points that would carry as much information.
func effective(weight *[points]float64) float64 {
	sum := 0.0
	for _, w := range weight {
		sum += w * w
	}
	return 1 / sum
}
