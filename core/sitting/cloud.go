package sitting

import (
	"math"

	"pivotbench/core/stat"
)

// points is how many points a cloud has.
const points = 2048

// primes are the bases of its point set, one an unknown: the smallest fill their
// axis most evenly, and go to the player, of whom the points alone tell.
var primes = []int{7, 17, 5, 11, 13, 2, 3}

// A cloud stands for what is known of the shared unknowns: points, each with the
// weight that makes the cloud stand for their prior. Where the strokes have
// narrowed the unknowns down, most points are drawn there, and weigh less.
//
// Source: Owen and Zhou, J. Amer. Statist. Assoc. 95 (2000) 135, for drawing
// from a mixture with the prior and weighing by the whole of it, which bounds
// the weights.
type cloud struct {
	z      [points][allUnknowns]float64
	weight [points]float64
	row    [points][terms]float64 // of the set-up's errors
	sigma  [points]float64        // scatter of direction, in radians
}

// fromPrior is the share of points that are drawn from the prior whatever is
// known.
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

// prepare works out what every stroke asks for.
func (c *cloud) prepare() {
	for i := range c.z {
		c.row[i] = row(&c.z[i])
		c.sigma[i] = float64(ScatterLeast) * math.Pow(float64(ScatterMost/ScatterLeast), stat.Normal(c.z[i][scatter]))
	}
}

// around draws a cloud that is densest where the strokes so far leave the
// unknowns, by their mean and covariance. The two parts of the mixture are point
// sets of their own: every fourth point of a single one would fill no more than a
// quarter of an axis whose base is 2.
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
		// The prior's density over the mixture's.
		c.weight[i] = 1 / (fromPrior + (1-fromPrior)*math.Exp((far-near)/2-logRoot))
	}
	c.prepare()
	return c
}

// bias returns the constant aim bias at a point, in radians.
func (c *cloud) bias(i int) float64 { return float64(AimSpread) * c.z[i][aim] }

// moments returns the mean of the unknowns under weights that sum to one, and
// the root of their covariance, widened so that the next cloud covers the tails.
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

// effective returns how many equally weighted points would tell as much.
func effective(weight *[points]float64) float64 {
	sum := 0.0
	for _, w := range weight {
		sum += w * w
	}
	return 1 / sum
}
