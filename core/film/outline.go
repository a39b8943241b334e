package film

import (
	"math"
	"slices"
)

// An outline is a ball's outline as it was found in a picture.
type outline struct {
	ellipse
	sharp   float64     // mean step of luma across it
	scatter float64     // standard deviation of the edge points about it, in pixels
	points  int         // number of edge points that agree
	normal  [][]float64 // information about its centre, along the long and the short axis, and its size
	size    float64     // what its long semi-axis should be; 0: not known
}

// rays is the number of directions in which edges are looked for.
const rays = 72

// findOutline finds the outline of a resting ball near a mark, as a circle with a radius
// between two limits.
func findOutline(p *Picture, mark Point, low, high float64) (outline, bool) {
	start, ok := coarse(p, mark, low, high)
	if !ok {
		return outline{}, false
	}
	return refine(p, start, 0)
}

// coarse finds the circle near a mark across which the luma changes most. This is the
// integro-differential operator of Daugman, High confidence visual recognition of
// persons by a test of statistical independence, IEEE Trans. PAMI 15 (1993) 1148.
func coarse(p *Picture, mark Point, low, high float64) (best ellipse, ok bool) {
	most := 0.0
	for r := low; r <= high; r *= 1.06 {
		step := math.Max(0.75, r/12)
		reach := 0.6 * r
		for dy := -reach; dy <= reach; dy += step {
			for dx := -reach; dx <= reach; dx += step {
				e := ellipse{Point{mark.X + dx, mark.Y + dy}, r, r, 1, 0}
				// A large edge tells more than a small one, such as that of a lamp's reflection.
				score := stepAcross(p, &e, 20) * (1 - 0.15*math.Hypot(dx, dy)/reach) * math.Pow(r/low, 0.1)
				if score > most {
					best, most = e, score
				}
			}
		}
	}
	return best, most > 6
}

// stepAcross returns the mean step of luma across an ellipse, up or down: the top of a ball
// may be brighter than the cloth and its underside darker. Great steps are limited.
func stepAcross(p *Picture, e *ellipse, n int) float64 {
	sum, weight := 0.0, 0.0
	gap := math.Max(1.2, 0.12*e.long)
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		in, out := e.on(cos, sin, -gap), e.on(cos, sin, gap)
		step := math.Abs(p.at(in.X, in.Y) - p.at(out.X, out.Y))
		w := e.trust(cos, sin)
		sum += w * (min(step, clear) + 0.1*step)
		weight += w
	}
	return sum / weight
}

// clear is a step of luma that no noise makes. Greater ones hardly count for more, so an
// outline that is seen all around wins over one with a piece of a stronger edge.
const clear = 25

// on returns the point of the ellipse in the direction (cos, sin) of its own axes, moved
// outward by some pixels.
func (e *ellipse) on(cos, sin, outward float64) Point {
	a, b := (e.long+outward)*cos, (e.short+outward)*sin
	return Point{e.X + a*e.cos - b*e.sin, e.Y + a*e.sin + b*e.cos}
}

// refine fits an ellipse of given form to the steepest places along rays, by least
// squares with Tukey's biweight (Beaton and Tukey, Technometrics 16 (1974) 147).
func refine(p *Picture, start ellipse, size float64) (outline, bool) {
	o := outline{ellipse: start, size: size, sharp: stepAcross(p, &start, rays)}
	for round := range 8 {
		narrow := math.Pow(0.7, float64(round)) // each round looks closer to the ellipse
		reach, most := math.Max(2.5, 0.3*narrow*o.long), math.Max(0.8, 0.22*narrow*o.long)
		var cos, sin, off [rays]float64
		n := 0
		for i := range rays {
			s, c := math.Sincos(2 * math.Pi * float64(i) / rays)
			if at, ok := steepest(p, &o.ellipse, c, s, reach); ok {
				cos[n], sin[n], off[n] = c, s, at
				n++
			}
		}
		if n < rays/3 {
			return o, false
		}
		moved, ok := o.shift(cos[:n], sin[:n], off[:n], most)
		if !ok || o.long < 3 {
			return o, false
		}
		if moved < 0.01 && round > 3 {
			break
		}
	}
	return o, o.points >= rays/3 && o.sharp > 6 && math.Hypot(o.X-start.X, o.Y-start.Y) < start.long
}

// steepest returns how far outward of an ellipse the luma changes most along a ray.
func steepest(p *Picture, e *ellipse, cos, sin, reach float64) (float64, bool) {
	const step = 0.5
	n := int(2*reach/step) + 1
	var luma [256]float64
	n = min(n, len(luma))
	for i := range n {
		at := e.on(cos, sin, -reach+step*float64(i))
		luma[i] = p.at(at.X, at.Y)
	}
	best, most := 0, 0.0
	slope := func(i int) float64 { // over 2 pixels, smoothed
		return math.Abs(luma[i-2] + luma[i-1] - luma[i+1] - luma[i+2])
	}
	for i := 2; i < n-2; i++ {
		// Of equal edges the one nearer to the ellipse counts.
		d := (-reach + step*float64(i)) / reach
		if s := slope(i) * (1 - 0.3*d*d); s > most {
			best, most = i, s
		}
	}
	if best < 3 || best > n-4 || most < 8 {
		return 0, false
	}
	// Centroid of the slope about its peak.
	sum, moment := 0.0, 0.0
	for i := max(2, best-3); i <= min(n-3, best+3); i++ {
		if s := slope(i); s > 0.3*most {
			sum += s
			moment += s * float64(i)
		}
	}
	return -reach + step*moment/sum, true
}

// shift moves and scales the ellipse to fit edge points that lie off outward of it, and
// returns how far it moved. Points further than most from the fit don't count.
func (o *outline) shift(cos, sin, off []float64, most float64) (float64, bool) {
	n := len(off)
	var move [3]float64 // along the long axis, the short one, and in size
	resid := make([]float64, n)
	scale := math.Inf(1)
	for range 8 {
		m, v := square(3), make([]float64, 3)
		for i := range n {
			row := [3]float64{cos[i], sin[i], 1}
			w := tukey(resid[i]/scale) * o.trust(cos[i], sin[i])
			for a := range row {
				v[a] += w * row[a] * off[i]
				for b := range row {
					m[a][b] += w * row[a] * row[b]
				}
			}
		}
		if o.size > 0 { // as sure as a few edge points are
			w := edgeError / math.Hypot(sizeError, sizeShare*o.size)
			m[2][2] += w * w
			v[2] += w * w * (o.size - o.long)
		}
		x, ok := solve(m, v)
		if !ok {
			return 0, false
		}
		copy(move[:], x)
		abs := make([]float64, n)
		for i := range n {
			resid[i] = off[i] - move[0]*cos[i] - move[1]*sin[i] - move[2]
			abs[i] = math.Abs(resid[i])
		}
		slices.Sort(abs)
		scale = min(max(4.7*1.4826*abs[n/2], 0.4), most)
	}
	o.points, o.normal = 0, square(3)
	sum := 0.0
	for i, r := range resid {
		if math.Abs(r) >= scale {
			continue
		}
		o.points++
		sum += r * r
		row := [3]float64{cos[i], sin[i], 1}
		for a := range row {
			for b := range row {
				o.normal[a][b] += o.trust(cos[i], sin[i]) * row[a] * row[b]
			}
		}
	}
	o.scatter = math.Sqrt(sum / float64(max(o.points-3, 1)))
	o.X += move[0]*o.cos - move[1]*o.sin
	o.Y += move[0]*o.sin + move[1]*o.cos
	o.short *= 1 + move[2]/o.long
	o.long += move[2]
	return math.Abs(move[0]) + math.Abs(move[1]) + math.Abs(move[2]), true
}

// trust returns the weight of an edge point in a direction of the ellipse's axes. Below,
// shadow and the dark underside of the ball hide its edge.
func (e *ellipse) trust(cos, sin float64) float64 {
	if down := cos*e.sin + sin*e.cos; down > 0.3 {
		return underside
	}
	return 1
}

const underside = 0.1

// tukey returns the biweight of a residual in units of the distance at which it is
// rejected.
func tukey(u float64) float64 {
	if math.IsNaN(u) || math.Abs(u) >= 1 {
		return 0
	}
	k := 1 - u*u
	return k * k
}
