package film

import (
	"math"
	"slices"
)

// A patch is a part of the first picture that stands still, by which the camera's shake is
// measured.
type patch struct {
	x0, y0, n, m, step int
	luma, gx, gy       []float64
	diff               []float64 // for shift
	gone               bool      // its ball has rolled on
}

// newPatch returns the patch of a picture about an outline.
func newPatch(p *Picture, e *ellipse) patch {
	r := 1.4 * e.long
	q := patch{x0: max(2, int(e.X-r)), y0: max(2, int(e.Y-r)), step: max(1, int(e.long/12))}
	x1, y1 := min(p.Width-3, int(e.X+r)), min(p.Height-3, int(e.Y+r))
	q.n, q.m = max(0, (x1-q.x0)/q.step), max(0, (y1-q.y0)/q.step)
	for j := range q.m {
		for i := range q.n {
			x, y := float64(q.x0+i*q.step)+0.5, float64(q.y0+j*q.step)+0.5
			q.luma = append(q.luma, p.at(x, y))
			q.gx = append(q.gx, (p.at(x+1, y)-p.at(x-1, y))/2)
			q.gy = append(q.gy, (p.at(x, y+1)-p.at(x, y-1))/2)
		}
	}
	return q
}

// shift returns how far the patch has moved in a picture, beginning with a guess, the
// information about that, and the root mean square of what differs.
//
// Source: Lucas and Kanade, An iterative image registration technique with an application
// to stereo vision (1981).
func (q *patch) shift(p *Picture, guess Point) (at Point, info [3]float64, rms float64, ok bool) {
	at = guess
	for range 4 {
		var a, b, c, u, v, sum, light float64
		n := float64(len(q.luma))
		diff := q.diff[:0]
		for j := range q.m {
			for i := range q.n {
				x, y := float64(q.x0+i*q.step)+0.5, float64(q.y0+j*q.step)+0.5
				d := p.at(x+at.X, y+at.Y) - q.luma[j*q.n+i]
				diff = append(diff, d)
				light += d / n
			}
		}
		q.diff = diff
		for k, d := range diff {
			d -= light
			gx, gy := q.gx[k], q.gy[k]
			a += gx * gx
			b += gx * gy
			c += gy * gy
			u += gx * d
			v += gy * d
			sum += d * d
		}
		det := a*c - b*b
		if n < 20 || det < 1e-3*a*c || a == 0 {
			return at, info, 0, false
		}
		dx, dy := (c*u-b*v)/det, (a*v-b*u)/det
		at.X -= dx
		at.Y -= dy
		rms, info = math.Sqrt(sum/n), [3]float64{a, b, c}
		if math.Hypot(dx, dy) < 0.02 {
			break
		}
	}
	return at, info, rms, math.Hypot(at.X-guess.X, at.Y-guess.Y) < 12
}

// A vote is what one patch says about the shift of a frame.
type vote struct {
	patch *patch
	at    Point
	info  [3]float64 // about at, for a noise of 1
}

// steady returns the shift of a frame, weighing all patches that look as they did and lie where
// the others say. A ball that rolls away slowly looks as it did but takes its patch along, so
// such a patch counts no more until it agrees again. ok is false if none is left.
func (r *Reader) steady(p *Picture) (shift Point, ok bool) {
	var still, gone []vote
	for i := range r.patches {
		q := &r.patches[i]
		at, info, rms, ok := q.shift(p, r.shake)
		if !ok || rms > changed {
			continue
		}
		for i := range info {
			info[i] /= math.Max(rms*rms, 1)
		}
		if q.gone {
			gone = append(gone, vote{q, at, info})
		} else {
			still = append(still, vote{q, at, info})
		}
	}
	middle := r.middle(still)
	still = slices.DeleteFunc(still, func(v vote) bool {
		v.patch.gone = math.Hypot(v.at.X-middle.X, v.at.Y-middle.Y) > apartMost
		return v.patch.gone
	})
	if len(still) == 0 {
		return r.shake, false
	}
	var a, b, c, u, v float64
	for _, s := range still {
		a += s.info[0]
		b += s.info[1]
		c += s.info[2]
		u += s.info[0]*s.at.X + s.info[1]*s.at.Y
		v += s.info[1]*s.at.X + s.info[2]*s.at.Y
	}
	det := a*c - b*b
	shift = Point{(c*u - b*v) / det, (a*v - b*u) / det}
	for _, g := range gone {
		g.patch.gone = math.Hypot(g.at.X-shift.X, g.at.Y-shift.Y) > apartMost/2
	}
	return shift, true
}

// middle returns the median of the votes, with the last frame's shift as one more where there
// are only two.
func (r *Reader) middle(votes []vote) Point {
	var x, y []float64
	for _, v := range votes {
		x, y = append(x, v.at.X), append(y, v.at.Y)
	}
	switch len(votes) {
	case 0:
		return r.shake
	case 2:
		x, y = append(x, r.shake.X), append(y, r.shake.Y)
	}
	slices.Sort(x)
	slices.Sort(y)
	return Point{x[len(x)/2], y[len(y)/2]}
}

// apartMost is how far apart, in pixels, the shifts of patches that stand still may be.
const apartMost = 1.5

// changed is the root mean square of luma by which a patch that is covered, or whose ball
// has gone, differs at least.
const changed = 14
