package trial

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Suggestion is the try that is expected to tell most about the pivot
// length.
type Suggestion struct {
	Bridge unit.Length
	Right  bool    // english to the right
	Bits   float64 // expected information, in bits
}

// The pooled grid on which suggestions are weighed: coarser than the
// posterior's, for an answer between two strokes.
const (
	poolPivots   = 24
	poolElevs    = 3
	poolScatters = 4
	poolAims     = 5
)

// A pool is a posterior in fewer, larger cells, each at its centre of weight.
type pool struct {
	weight [poolPivots][poolElevs][poolScatters][poolAims]float64
	pivot  [poolPivots]float64
	elev   [poolElevs]float64
	sd     [poolScatters]float64
	aim    [poolAims]float64
}

// pooled gathers a posterior: the pivots into cells of equal weight, the rest
// into equal parts of their grids.
func (p *Posterior) pooled() *pool {
	var out pool
	var cut [pivots]int
	sum := 0.0
	for l, w := range p.pivotWeights() {
		cut[l] = min(int((sum+w/2)*poolPivots), poolPivots-1)
		sum += w
	}
	var wp [poolPivots]float64
	var we [poolElevs]float64
	var ws [poolScatters]float64
	var wa [poolAims]float64
	for i, w := range p.weight {
		if w == 0 {
			continue
		}
		l, e, s, a := cell(i)
		lp, ep, sp, ap := cut[l], e*poolElevs/elevs, s*poolScatters/scatters, a*poolAims/aims
		out.weight[lp][ep][sp][ap] += w
		out.pivot[lp] += w * math.Log(p.pivot[l])
		out.elev[ep] += w * p.elev[e]
		out.sd[sp] += w * p.scatter[s]
		out.aim[ap] += w * p.aim[a]
		wp[lp], we[ep], ws[sp], wa[ap] = wp[lp]+w, we[ep]+w, ws[sp]+w, wa[ap]+w
	}
	for i, w := range wp {
		if w > 0 {
			out.pivot[i] = math.Exp(out.pivot[i] / w)
		}
	}
	centre(out.elev[:], we[:])
	centre(out.sd[:], ws[:])
	centre(out.aim[:], wa[:])
	return &out
}

// centre makes sums into means where there is any weight.
func centre(sum, weight []float64) {
	for i, w := range weight {
		if w > 0 {
			sum[i] /= w
		}
	}
}

// information is what a try is expected to tell about the pivot length, in
// bits: the entropy of its outcome less what is left of it once the pivot
// length is known. All else that is unknown is averaged over.
//
// Source: Kontsevich and Tyler, Vision Research 39 (1999) 2729.
func (q *pool) information(s *shot.Shot) float64 {
	var path motion.Path
	var all [outcomes]float64
	at := *s
	bound, dist := bounds(s), float64(s.Gate.Dist)
	known := 0.0
	for l := range poolPivots {
		var mine [outcomes]float64
		weight := 0.0
		for e := range poolElevs {
			at.Cue.Pivot = unit.Length(q.pivot[l])
			at.Elevation = min(max(s.Elevation+unit.Angle(q.elev[e]), 0), 89*unit.Degree)
			x, err := crossing(&at, &path)
			if q.pivot[l] == 0 || err != nil {
				continue
			}
			for sp := range poolScatters {
				for a := range poolAims {
					w := q.weight[l][e][sp][a]
					if w == 0 {
						continue
					}
					c := chances(x+dist*math.Tan(q.aim[a]), dist*q.sd[sp], bound)
					for o := range c {
						mine[o] += w * c[o]
					}
					weight += w
				}
			}
		}
		if weight == 0 {
			continue
		}
		for o := range mine {
			all[o] += mine[o]
			mine[o] /= weight
		}
		known += weight * entropy(mine)
	}
	total := 0.0
	for _, v := range all {
		total += v
	}
	if total == 0 {
		return 0
	}
	for o := range all {
		all[o] /= total
	}
	return max(0, entropy(all)-known/total)
}

// entropy is that of a distribution, in bits.
func entropy(p [outcomes]float64) float64 {
	h := 0.0
	for _, v := range p {
		if v > 0 {
			h -= v * math.Log2(v)
		}
	}
	return h
}

// Next is the bridge length and side of english of the most telling try, the
// set-up otherwise as it is: bridges on a coarse ladder of candidates within
// what the player can reach.
func (p *Posterior) Next(s *shot.Shot, least, most unit.Length) Suggestion {
	q := p.pooled()
	var best Suggestion
	const rungs = 14
	side := math.Abs(s.Contact.Side)
	try := func(bridge unit.Length) {
		for _, right := range []bool{true, false} {
			at := *s
			at.Hands.Bridge, at.Hands.Back, at.Hands.Front = bridge, 1, 0
			at.Contact.Side = side
			if !right {
				at.Contact.Side = -side
			}
			if bits := q.information(&at); bits > best.Bits {
				best = Suggestion{bridge, right, bits}
			}
		}
	}
	ratio := math.Pow(float64(most/least), 1/float64(rungs-1))
	for i := range rungs {
		try(least * unit.Length(math.Pow(ratio, float64(i))))
	}
	// Once more, between the neighbours of the best.
	mid := best.Bridge
	for _, f := range []float64{-2.0 / 3, -1.0 / 3, 1.0 / 3, 2.0 / 3} {
		try(min(max(mid*unit.Length(math.Pow(ratio, f)), least), most))
	}
	return best
}

// MoreTries is about how many more tries it takes until the 90 % interval of
// the pivot length is within so much of its median on either side, such as
// 0.1, if each tells as much as the next one should. Zero: it is.
func (p *Posterior) MoreTries(next Suggestion, within float64) int {
	est := p.Pivot()
	wide := math.Log(est.Most.To / est.Most.From)
	goal := math.Log((1 + within) / (1 - within))
	if wide <= goal {
		return 0
	}
	if next.Bits <= 0 {
		return math.MaxInt
	}
	// A bit halves the width.
	return int(math.Ceil(math.Log2(wide/goal) / next.Bits))
}
