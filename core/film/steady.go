package film

import "math"

// A patch is a part of the first picture that stands still, by which the camera's shake is
// measured.
type patch struct {
	x0, y0, n, m, step int
	luma, gx, gy       []float64
	diff               []float64 // for shift
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

// steady returns the shift of a frame, weighing all patches that look as they did. ok is
// false if none does.
func (r *Reader) steady(p *Picture) (Point, bool) {
	var a, b, c, u, v float64
	found := false
	for i := range r.patches {
		at, info, rms, ok := r.patches[i].shift(p, r.shake)
		if !ok || rms > changed {
			continue
		}
		found = true
		a += info[0]
		b += info[1]
		c += info[2]
		u += info[0]*at.X + info[1]*at.Y
		v += info[1]*at.X + info[2]*at.Y
	}
	if !found {
		return r.shake, false
	}
	det := a*c - b*b
	return Point{(c*u - b*v) / det, (a*v - b*u) / det}, true
}

// changed is the root mean square of luma by which a patch that is covered, or whose ball
// has gone, differs at least.
const changed = 14
