package sitting

import (
	"math"

	"pivotbench/core/stat"
)

// points is the number of points in a cloud.
const points = 2048

// primes are the bases of the cloud's Halton sequence, one per unknown. Small
// bases fill their axis most evenly, so they go to the player's unknowns, which
// only the points represent.
var primes = []int{7, 17, 5, 11, 13, 2, 3}

// A cloud is a set of weighted points that represents the prior of the shared
// unknowns. Once strokes have narrowed the unknowns down, most points are drawn
// from the narrowed region, with smaller weights to compensate (importance
// sampling).
//
// Source: Owen and Zhou, J. Amer. Statist. Assoc. 95 (2000) 135, for sampling
// from a mixture that contains the prior and dividing by the density of the whole
// mixture, which bounds the weights.
type cloud struct {
	z      [points][allUnknowns]float64
	weight [points]float64
	row    [points][terms]float64 // polynomial terms of the set-up errors
	sigma  [points]float64        // player's scatter of direction, in radians
}

// fromPrior is the share of points that are always drawn from the prior.
const fromPrior = 1. / 4

// newCloud draws a cloud from the prior.
func newCloud() *cloud {
	c := &cloud{}
	for i, u := range stat.Halton(points, primes, 0) {
		for d := range c.z[i] {
			c.z[i][d] = stat.NormalQuantile(u[d])
		}
		c.weight[i] = 1
	}
	c.prepare()
	return c
}

// prepare computes the polynomial terms and the scatter of every point, which
// every stroke uses.
func (c *cloud) prepare() {
	for i := range c.z {
		c.row[i] = row(&c.z[i])
		c.sigma[i] = float64(ScatterLeast) * math.Pow(float64(ScatterMost/ScatterLeast), stat.Normal(c.z[i][scatter]))
	}
}

// around draws a cloud that is densest where the posterior of the unknowns is,
// given its mean and the root of its covariance. The two parts of the mixture use
// separate Halton sequences: every fourth point of a single sequence would cover
// only a quarter of an axis whose base is 2.
func around(mean [allUnknowns]float64, root stat.Root) *cloud {
	c := &cloud{}
	const prior = points * fromPrior
	u := append(stat.Halton(prior, primes, 0), stat.Halton(points-prior, primes, 1)...)
	logRoot := 0.0
	for d := range allUnknowns {
		logRoot += math.Log(root[d][d])
	}
	for i := range c.z {
		std := make([]float64, allUnknowns)
		for d := range std {
			std[d] = stat.NormalQuantile(u[i][d])
		}
		if i < prior {
			copy(c.z[i][:], std)
		} else {
			for d, v := range root.Apply(std) {
				c.z[i][d] = mean[d] + v
			}
		}
		away := make([]float64, allUnknowns)
		far, near := 0.0, 0.0
		for d, v := range c.z[i] {
			far += v * v
			away[d] = v - mean[d]
		}
		for _, v := range root.Solve(away) {
			near += v * v
		}
		// The density of the prior divided by that of the mixture.
		c.weight[i] = 1 / (fromPrior + (1-fromPrior)*math.Exp((far-near)/2-logRoot))
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
	cov := make([][]float64, allUnknowns)
	for d := range cov {
		cov[d] = make([]float64, allUnknowns)
	}
	for i, w := range weight {
		for d, v := range c.z[i] {
			for e, u := range c.z[i] {
				cov[d][e] += w * (v - mean[d]) * (u - mean[e])
			}
		}
	}
	const widen, least = 1.2, 1e-4
	for d := range cov {
		for e := range cov {
			cov[d][e] *= widen
		}
		cov[d][d] += least
	}
	root, _ = stat.Cholesky(cov)
	return mean, root
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
