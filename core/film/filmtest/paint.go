package filmtest

import (
	"math"

	"pivotbench/core/vec"
)

// sphere returns the distance along a ray to a ball, and whether it is hit.
func sphere(eye, dir, centre vec.V, radius float64) (float64, bool) {
	d := centre.Sub(eye)
	along := d.Dot(dir)
	gap := radius*radius - d.Dot(d) + along*along
	if gap < 0 || along < 0 {
		return 0, false
	}
	return along - math.Sqrt(gap), true
}

// shade returns the luma of a ball where its unit normal is n.
func (f *Film) shade(luma float64, at, n, dir vec.V) float64 {
	light, shine := 0.42, 0.0
	for _, lamp := range f.s.Lamps {
		to := lamp.Sub(at)
		to = to.Mul(1 / to.Norm())
		light += 0.36 * math.Max(0, n.Dot(to))
		mirrored := dir.Sub(n.Mul(2 * dir.Dot(n)))
		shine += 60 * math.Pow(math.Max(0, mirrored.Dot(to)), 60)
	}
	light -= 0.12 * math.Max(0, -n.Z) // the bed is darker than the room
	return luma*light + shine
}

// shadowed is how many radii from a ball its shadow may fall on the bed.
const shadowed = 4

// lit returns the share of light that comes past a ball to a point on the bed.
func (f *Film) lit(p, ball vec.V) float64 {
	if p.Sub(ball).Plan().Norm() > shadowed*f.s.Radius {
		return 1
	}
	share := 1.0
	for _, lamp := range f.s.Lamps {
		to := lamp.Sub(p)
		to = to.Mul(1 / to.Norm())
		d := ball.Sub(p)
		along := d.Dot(to)
		if along < 0 {
			continue
		}
		miss := math.Sqrt(math.Max(0, d.Dot(d)-along*along))
		soft := 0.25 * f.s.Radius
		share -= f.s.Shadow / 2 * min(max((f.s.Radius+soft-miss)/(2*soft), 0), 1)
	}
	// Little light comes in under the ball from the sides.
	flat := p.Sub(ball).Plan().Norm() / f.s.Radius
	return share * (1 - 0.55*math.Exp(-flat*flat*1.6))
}

// bed returns the luma of cloth, rails and floor where a ray meets them.
func (f *Film) bed(p vec.V) float64 {
	const side, foot, head = 0.635, 1.9, -0.64
	hash := func(x, y float64) float64 {
		v := math.Sin(math.Floor(x)*12.9898+math.Floor(y)*78.233) * 43758.5453
		return v - math.Floor(v)
	}
	inside := math.Max(math.Abs(p.X)-side, math.Max(p.Y-foot, head-p.Y))
	switch {
	case inside < 0:
		return f.s.Cloth * (1 + 0.03*(hash(p.X*300, p.Y*300)-0.5) + 0.06*math.Sin(2*p.X+p.Y))
	case inside < 0.05:
		return f.s.Cloth * 0.75
	case inside < 0.16:
		if math.Mod(math.Abs(p.Y)+0.16, 0.3175) < 0.015 && inside > 0.1 && inside < 0.115 {
			return 220 // a sight
		}
		return 55 + 10*hash(p.X*80, p.Y*20)
	}
	return 40 + 90*hash(p.X*3, p.Y*3)
}

// still renders what stands still: without the balls that will move, with the one that is
// hit, and with all.
func (f *Film) still() {
	s := f.s
	w, h := s.Width+2*pad, s.Height+2*pad
	f.back[2] = make([]float32, w*h)
	f.resting = append([]Ball(nil), s.Balls...)
	if f.hit >= 0 {
		f.resting = append(f.resting[:f.hit], f.resting[f.hit+1:]...)
	}
	f.render(f.back[2], 0, 0, w, h)
	f.back[1] = f.back[2]
	if f.hit >= 0 {
		f.back[1] = f.with(f.back[2], s.Balls[f.hit])
	}
	f.back[0] = f.with(f.back[1], Ball{Luma: s.Cue})
	f.resting = f.resting[:len(f.resting)-1]
	if f.hit >= 0 {
		f.resting = f.resting[:len(f.resting)-1]
	}
}

// with returns a picture with one more resting ball.
func (f *Film) with(back []float32, b Ball) []float32 {
	s := f.s
	out := append([]float32(nil), back...)
	f.resting = append(f.resting, b)
	x, y, deep := f.Pixel(b.At)
	r := 6 * s.Focal * s.Radius / deep
	f.render(out, int(x-r)+pad, int(y-r)+pad, int(x+r)+pad, int(y+r)+pad)
	return out
}

// render traces a part of a picture with the balls that rest.
func (f *Film) render(out []float32, x0, y0, x1, y1 int) {
	s := f.s
	w, h := s.Width+2*pad, s.Height+2*pad
	type disc struct{ x, y, r float64 }
	var discs []disc
	for _, b := range f.resting {
		x, y, deep := f.Pixel(b.At)
		discs = append(discs, disc{x, y, 1.4*s.Focal*s.Radius/deep + 2})
	}
	for y := max(0, y0); y < min(h, y1); y++ {
		for x := max(0, x0); x < min(w, x1); x++ {
			px, py := float64(x-pad)+0.5, float64(y-pad)+0.5
			n, sum := 1, 0.0
			for _, d := range discs {
				if math.Abs(px-d.x) < d.r && math.Abs(py-d.y) < d.r {
					n = 4
				}
			}
			for i := range n {
				for j := range n {
					sum += f.trace(px+(float64(i)+0.5)/float64(n)-0.5, py+(float64(j)+0.5)/float64(n)-0.5)
				}
			}
			out[y*w+x] = float32(sum / float64(n*n))
		}
	}
}

func (f *Film) trace(x, y float64) float64 {
	s := f.s
	dir := f.ray(x, y)
	best, luma := math.Inf(1), 0.0
	for _, b := range f.resting {
		if d, ok := sphere(s.Eye, dir, b.At, s.Radius); ok && d < best {
			at := s.Eye.Add(dir.Mul(d))
			best, luma = d, f.shade(b.Luma, at, at.Sub(b.At).Mul(1/s.Radius), dir)
		}
	}
	if best < math.Inf(1) {
		return luma
	}
	t := (-s.Radius - s.Eye.Z) / dir.Z
	if !(t > 0) || t > 8 {
		return 60
	}
	p := s.Eye.Add(dir.Mul(t))
	luma = f.bed(p)
	for _, b := range f.resting {
		luma *= f.lit(p, b.At)
	}
	return luma
}

// ground copies what stands still, moved by the camera's wander.
func (f *Film) ground(back []float32, light float32) {
	s := f.s
	w := s.Width + 2*pad
	ix, iy := math.Floor(f.wander[0]), math.Floor(f.wander[1])
	fx, fy := float32(f.wander[0]-ix), float32(f.wander[1]-iy)
	for y := range s.Height {
		row := back[(y+pad+int(iy))*w+pad+int(ix):]
		next := row[w:]
		out := f.plane[y*s.Width : (y+1)*s.Width]
		for x := range out {
			top := row[x] + fx*(row[x+1]-row[x])
			low := next[x] + fx*(next[x+1]-next[x])
			out[x] = light * (top + fy*(low-top))
		}
	}
}

// capsule paints a stroke of some width from one point of the world to another.
func (f *Film) capsule(a, b vec.V, ra, rb, luma float64) {
	s := f.s
	ax, ay, da := f.Pixel(a)
	bx, by, db := f.Pixel(b)
	if da < 0.05 || db < 0.05 {
		return
	}
	f.stroke(ax-f.wander[0], ay-f.wander[1], bx-f.wander[0], by-f.wander[1], ra*s.Focal/da, rb*s.Focal/db, luma)
}

// stroke paints a stroke in the picture whose width changes from one end to the other.
func (f *Film) stroke(ax, ay, bx, by, ra, rb, luma float64) {
	s := f.s
	r := math.Max(ra, rb) + 1
	long := (bx-ax)*(bx-ax) + (by-ay)*(by-ay)
	for y := max(0, int(math.Min(ay, by)-r)); y < min(s.Height, int(math.Max(ay, by)+r)+1); y++ {
		for x := max(0, int(math.Min(ax, bx)-r)); x < min(s.Width, int(math.Max(ax, bx)+r)+1); x++ {
			px, py := float64(x)+0.5-ax, float64(y)+0.5-ay
			k := 0.0
			if long > 0 {
				k = min(max((px*(bx-ax)+py*(by-ay))/long, 0), 1)
			}
			d := math.Hypot(px-k*(bx-ax), py-k*(by-ay)) - (ra + k*(rb-ra))
			cover := float32(min(max(0.5-d, 0), 1))
			if cover > 0 {
				o := y*s.Width + x
				round := 1 + 0.35*math.Min(0, d/(ra+1)) // shaded as if it were round
				f.plane[o] += cover * (float32(luma*round) - f.plane[o])
			}
		}
	}
}

// hand paints the cue and the bridge hand.
func (f *Film) hand(t float64) {
	tip := f.tip(t)
	up := 0.0
	if since := f.since(t); since > 0.5 {
		up = math.Min(0.3, 0.6*(since-0.5)) // the player rises
	}
	at := func(y float64) vec.V { return vec.V{X: 0.004, Y: y, Z: 0.035*(-y) + up} }
	f.capsule(at(tip-0.012), at(tip-1.2), 0.0065, 0.012, 190)
	f.capsule(at(tip-0.012), at(tip-0.03), 0.0065, 0.0065, 235)
	f.capsule(at(tip-0.002), at(tip-0.012), 0.0062, 0.0065, 60)
	f.capsule(vec.V{X: 0.02, Y: -0.25, Z: up}, vec.V{X: 0.05, Y: -0.4, Z: 0.02 + up}, 0.045, 0.035, 150)
	f.capsule(vec.V{X: 0.05, Y: -0.4, Z: 0.02 + up}, vec.V{X: 0.1, Y: -0.9, Z: 0.1 + up}, 0.035, 0.045, 80)
}

// arm paints an arm that comes into the picture and goes again, for 0.3 s.
func (f *Film) arm(t float64) {
	s := f.s
	k := (t - s.Arm) / 0.3
	if k < 0 || k > 1 {
		return
	}
	w, h := float64(s.Width), float64(s.Height)
	in := math.Sin(math.Pi * k)
	f.stroke(0.4*w, -20, (0.4+0.1*k)*w, in*0.75*h, 0.07*w, 0.04*w, 130)
}
