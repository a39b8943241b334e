package film

import (
	"math"
	"slices"
)

// disc calls do for the pixels within so many radii of an outline.
func (r *Reader) disc(e ellipse, radii float64, do func(o int)) {
	size := radii * e.long
	for y := max(0, int(e.Y-size)); y < min(r.height, int(e.Y+size)+1); y++ {
		for x := max(0, int(e.X-size)); x < min(r.width, int(e.X+size)+1); x++ {
			dx, dy := float64(x)+0.5-e.X, float64(y)+0.5-e.Y
			if math.Hypot((dx*e.cos+dy*e.sin)/e.long, (dy*e.cos-dx*e.sin)/e.short) < radii {
				do(y*r.width + x)
			}
		}
	}
}

// clear takes the cue ball and its shadow out of the background at its spot, which is then like
// the cloth about it. Frames with the ball at rest tell nothing about that.
func (r *Reader) clear(e *ellipse) {
	xx, xy, yy := e.stretch(1/e.long, 1/e.short)
	r.disc(*e, likeReach, func(o int) {
		x, y := float64(o%r.width)+0.5-e.X, float64(o/r.width)+0.5-e.Y
		u, v := xx*x+xy*y, xy*x+yy*y
		r.seen[o] = deep
		if shade := r.like.at(u, v).bed; math.Hypot(u, v) > spotSize {
			r.back[o] /= max(shade, 0.2)
		} else {
			r.back[o] = float32(r.like.cloth)
		}
	})
}

// spotSize is how many radii from the middle of the resting ball its rim is sure to have ended.
const spotSize = 1.3

// backOf returns the background's luma between pixels; known is false beyond the picture and
// where a ball rests.
func (r *Reader) backOf(x, y float64) (luma float64, known bool) {
	x, y = x-0.5, y-0.5
	if !(x >= 0 && y >= 0 && x < float64(r.width-1) && y < float64(r.height-1)) {
		return 0, false
	}
	i, j := int(x), int(y)
	o := j*r.width + i
	if r.hidden[o] || r.hidden[o+r.width+1] {
		return 0, false
	}
	fx, fy := float32(x-float64(i)), float32(y-float64(j))
	top := r.back[o] + fx*(r.back[o+1]-r.back[o])
	low := r.back[o+r.width] + fx*(r.back[o+r.width+1]-r.back[o+r.width])
	return float64(top + fy*(low-top)), true
}

func (r *Reader) backAt(p Point) float64 {
	x, y := min(max(int(p.X), 0), r.width-1), min(max(int(p.Y), 0), r.height-1)
	return float64(r.back[y*r.width+x])
}

// lightOf returns the median of how much brighter a frame is than the background.
func (r *Reader) lightOf(p *Picture) float64 {
	var all []float64
	for i := 0; i < len(r.cells); i += 1 + len(r.cells)/200 {
		c := r.cells[i].e.Point
		all = append(all, p.at(c.X+r.shake.X, c.Y+r.shake.Y)-r.backAt(c))
	}
	slices.Sort(all)
	return all[len(all)/2]
}

// learnEach is the least time in seconds from one frame that the background is learned from to
// the next. A codec gives those that follow each other faster the same noise.
const learnEach = 0.015

// learn takes a frame without a moving ball into the background, where the ball may come.
func (r *Reader) learn(p *Picture) {
	if r.learns == 3*deep || r.learns > 0 && r.last-r.learned < learnEach {
		return
	}
	r.learned = r.last
	r.learns++
	dx, dy := math.Floor(r.shake.X), math.Floor(r.shake.Y)
	fx, fy := float32(r.shake.X-dx), float32(r.shake.Y-dy)
	left, up, light := int(dx), int(dy), float32(r.light)
	for y := max(0, -up); y < min(r.height, p.Height-up-1); y++ {
		top := p.Luma[(y+up)*p.Stride:]
		low := p.Luma[(y+up+1)*p.Stride:]
		for x := max(r.spans[y].from, -left); x < min(r.spans[y].to, p.Width-left-1); x++ {
			o := y*r.width + x
			if r.seen[o] >= deep {
				continue
			}
			a, b := float32(top[x+left]), float32(low[x+left])
			a += fx * (float32(top[x+left+1]) - a)
			b += fx * (float32(low[x+left+1]) - b)
			d := a + fy*(b-a) - light - r.back[o]
			if d < 12 && d > -12 {
				r.seen[o]++
				r.back[o] += d / float32(r.seen[o]+1)
			}
		}
	}
}

// A span is the part of a row of pixels in which the ball may come.
type span struct{ from, to int }

// reach widens the rows' spans by the surroundings of a ball.
func (r *Reader) reach(e *ellipse) {
	size := 3 * e.long
	from, to := max(0, int(e.X-size)), min(r.width, int(e.X+size)+1)
	for y := max(0, int(e.Y-size)); y < min(r.height, int(e.Y+size)+1); y++ {
		if s := &r.spans[y]; s.to == 0 {
			*s = span{from, to}
		} else {
			s.from, s.to = min(s.from, from), max(s.to, to)
		}
	}
}
