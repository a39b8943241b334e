package sitting

import (
	"math"
	"sync"

	"pivotbench/core/stat"
)

// points is the number of points in a cloud.
const points = 2048

// primes are the bases of the cloud's Halton sequence, one per unknown. Small
// bases fill their axis most evenly, so they go to the player's unknowns, which
// only the points represent.
var primes = []int{7, 17, 5, 11, 13, 2, 3, 19}

// A cloud is a set of weighted points that represents the prior of the shared
// unknowns. Once strokes have narrowed the unknowns down, most points are drawn
// from the narrowed region, with smaller weights to compensate (importance
// sampling).
//
// Source: Owen and Zhou, J. Amer. Statist. Assoc. 95 (2000) 135, for sampling
// from a mixture that contains the prior and dividing by the density of the whole
// mixture, which bounds the weights.
type cloud struct {
	z         [points][allUnknowns]float64
	logWeight [points]float64
	row       [points][terms]float64 // polynomial terms of the set-up errors
	sigma     [points]float64        // player's scatter of direction, in radians
}

// fromPrior is the share of points that are always drawn from the prior.
const fromPrior = 1. / 4

// spread returns points of the standard Normal distribution in all unknowns, spread
// evenly. They are the same every time, so each shift is computed once.
func spread(shift int) func() [][allUnknowns]float64 {
	return sync.OnceValue(func() [][allUnknowns]float64 {
		out := make([][allUnknowns]float64, points)
		for i, u := range stat.Halton(points, primes, shift) {
			for d := range out[i] {
				out[i][d] = stat.NormalQuantile(u[d])
			}
		}
		return out
	})
}

// The two parts of a cloud's mixture use Halton sequences with different shifts:
// every fourth point of a single sequence would cover only a quarter of an axis whose
// base is 2.
var forPrior, forRest = spread(0), spread(1)

// fromThePrior returns a cloud drawn from the prior. It is the same every time.
var fromThePrior = sync.OnceValue(func() *cloud {
	c := &cloud{}
	copy(c.z[:], forPrior())
	c.prepare()
	return c
})

// prepare computes the polynomial terms and the scatter of every point, which
// every stroke uses.
func (c *cloud) prepare() {
	for i := range c.z {
		c.row[i] = row(&c.z[i])
		c.sigma[i] = float64(ScatterLeast) * math.Pow(float64(ScatterMost/ScatterLeast), stat.Normal(c.z[i][scatter]))
	}
}

// around draws a cloud that is densest where the posterior of the unknowns is,
// given its mean and the root of its covariance.
func around(mean [allUnknowns]float64, root stat.Root) *cloud {
	c := &cloud{}
	const prior = points * fromPrior
	far, near := forPrior(), forRest()
	logRoot := 0.0
	for d := range allUnknowns {
		logRoot += math.Log(root[d][d])
	}
	for i := range c.z {
		var away []float64 // from the posterior's centre, in its standard deviations
		if i < prior {
			c.z[i] = far[i]
			var off [allUnknowns]float64
			for d, v := range c.z[i] {
				off[d] = v - mean[d]
			}
			away = root.Solve(off[:])
		} else {
			away = near[i-prior][:]
			for d, v := range root.Apply(away) {
				c.z[i][d] = mean[d] + v
			}
		}
		square := 0.0 // of the distance from the prior's centre, less that from the posterior's
		for d, v := range c.z[i] {
			square += v*v - away[d]*away[d]
		}
		// The density of the prior divided by that of the mixture.
		c.logWeight[i] = -math.Log(fromPrior + (1-fromPrior)*math.Exp(square/2-logRoot))
	}
	c.prepare()
	return c
}

// bias returns the constant aim bias at a point, in radians.
func (c *cloud) bias(i int) float64 { return float64(AimSpread) * c.z[i][aim] }

// moments returns the mean of the unknowns and the Cholesky root of their
// covariance under weights that sum to one. The covariance is widened so that the
// next cloud covers the tails.
func (c *cloud) moments(weight *[points]float64) (mean [allUnknowns]float64, root stat.Root) {
	for i, w := range weight {
		for d, v := range c.z[i] {
			mean[d] += w * v
		}
	}
	var lower [allUnknowns][allUnknowns]float64 // triangle of the covariance
	for i, w := range weight {
		off := c.z[i]
		for d := range off {
			off[d] -= mean[d]
			for e := range d + 1 {
				lower[d][e] += w * off[d] * off[e]
			}
		}
	}
	const widen, least = 1.2, 1e-4
	cov := make([][]float64, allUnknowns)
	for d := range cov {
		cov[d] = make([]float64, allUnknowns)
		for e := range cov {
			cov[d][e] = widen * lower[max(d, e)][min(d, e)]
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
