package filmtest

import (
	"math"

	"pivotbench/core/vec"
)

// samples is the number of moments of an exposure that are rendered.
const samples = 12

// moments returns where a ball is during the exposure of a frame.
func (f *Film) moments(m mover, t float64) (at [samples]vec.V, ok bool) {
	s := f.s
	row := 0.5
	for range 2 {
		for i := range at {
			if at[i], ok = m.at(t + s.Readout*row + s.Exposure*(float64(i)+0.5)/samples); !ok {
				return at, false
			}
		}
		_, y, deep := f.Pixel(at[samples/2])
		if deep < 0.05 {
			return at, false
		}
		row = min(max(y/float64(s.Height), 0), 1)
	}
	return at, true
}

// A box is a part of the picture.
type box struct{ x0, y0, x1, y1 int }

// about returns the part of the picture within so many radii of a ball's places.
func (f *Film) about(at *[samples]vec.V, radii float64) box {
	s := f.s
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range []vec.V{at[0], at[samples-1]} {
		x, y, deep := f.Pixel(p)
		r := radii*s.Focal*s.Radius/deep + 3
		x0, y0, x1, y1 = math.Min(x0, x-r), math.Min(y0, y-r), math.Max(x1, x+r), math.Max(y1, y+r)
	}
	return box{max(0, int(x0-f.wander[0])), max(0, int(y0-f.wander[1])),
		min(s.Width, int(x1-f.wander[0])+1), min(s.Height, int(y1-f.wander[1])+1)}
}

func (b box) holds(x, y int) bool { return x >= b.x0 && x < b.x1 && y >= b.y0 && y < b.y1 }

// each is the number of moments that share a shadow.
const each = 3

// ball draws a moving ball and its shadow: at each moment of the exposure a pixel shows
// either the ball or what lies behind it in the ball's shadow.
func (f *Film) ball(m mover, t float64) {
	s := f.s
	at, ok := f.moments(m, t)
	if !ok {
		return
	}
	shadow, disc := f.about(&at, shadowed+0.5), f.about(&at, 1.4)
	// How a pixel's ray turns from one pixel to the next.
	mx, my := float64(disc.x0+disc.x1)/2+f.wander[0], float64(disc.y0+disc.y1)/2+f.wander[1]
	right, down := f.ray(mx+0.5, my).Sub(f.ray(mx-0.5, my)), f.ray(mx, my+0.5).Sub(f.ray(mx, my-0.5))
	dark := shadowed*s.Radius + at[0].Sub(at[samples-1]).Norm()/2
	for py := shadow.y0; py < shadow.y1; py++ {
		for px := shadow.x0; px < shadow.x1; px++ {
			o := py*s.Width + px
			dir := f.ray(float64(px)+0.5+f.wander[0], float64(py)+0.5+f.wander[1])
			bed := s.Eye.Add(dir.Mul((-s.Radius - s.Eye.Z) / dir.Z))
			in := disc.holds(px, py)
			if !in && bed.Sub(at[samples/2]).Plan().Norm() > dark+s.Radius {
				continue
			}
			var covered [samples]bool
			sum := 0.0
			if in {
				sum = f.cover(m, &at, dir, right, down, &covered)
			}
			behind := float64(f.plane[o])
			light := f.shadows(&at, bed, dir)
			for i := range at {
				if !covered[i] {
					sum += behind * light[i/each]
				}
			}
			f.plane[o] = float32(sum / samples)
		}
	}
	f.painted = append(f.painted, at[samples/2])
}

// shadows returns the share of light at a point p of the bed, which a ray meets if no ball is
// in its way, for each few moments.
func (f *Film) shadows(at *[samples]vec.V, p, dir vec.V) (share [samples / each]float64) {
	s := f.s
	bare := true
	for _, b := range f.resting {
		_, hit := sphere(s.Eye, dir, b.At, s.Radius)
		bare = bare && !hit
	}
	for _, c := range f.painted {
		_, hit := sphere(s.Eye, dir, c, s.Radius)
		bare = bare && !hit
	}
	for i := range share {
		share[i] = 1
		if bare {
			share[i] = f.lit(p, at[i*each+each/2])
		}
	}
	return share
}

// cover returns the luma of a ball at a pixel with a ray, summed over the moments at which it
// covers the pixel.
func (f *Film) cover(m mover, at *[samples]vec.V, ray, right, down vec.V, covered *[samples]bool) float64 {
	s := f.s
	sum := 0.0
	for i := range at {
		// The moments are spread over the pixel as well (points of Halton).
		dir := ray.Add(right.Mul(spread[i][0])).Add(down.Mul(spread[i][1]))
		dir = dir.Mul(1 / dir.Norm())
		d, ok := sphere(s.Eye, dir, at[i], s.Radius)
		if !ok {
			continue
		}
		for _, b := range f.resting {
			if nearer, hides := sphere(s.Eye, dir, b.At, s.Radius); hides && nearer < d {
				ok = false
			}
		}
		if !ok {
			continue
		}
		p := s.Eye.Add(dir.Mul(d))
		normal := p.Sub(at[i]).Mul(1 / s.Radius)
		luma := m.luma
		if m.dots {
			luma = f.spotted(luma, normal, at[i])
		}
		sum += f.shade(luma, p, normal, dir)
		covered[i] = true
	}
	return sum
}

// spotted darkens the dots of a ball that has rolled to a place.
func (f *Film) spotted(luma float64, n, at vec.V) float64 {
	angle := at.Y / f.s.Radius
	sin, cos := math.Sincos(angle)
	n = vec.V{X: n.X, Y: n.Y*cos - n.Z*sin, Z: n.Y*sin + n.Z*cos}
	for _, d := range f.dots {
		if n.Dot(d) > 0.97 {
			return 0.5 * luma
		}
	}
	return luma
}

// spread is where in a pixel each moment looks.
var spread = func() (out [samples][2]float64) {
	for i := range out {
		out[i] = [2]float64{halton(i, 2) - 0.5, halton(i, 3) - 0.5}
	}
	return out
}()

// halton returns the i-th of the points of Halton in a base.
func halton(i, base int) float64 {
	i++
	out, k := 0.0, 1.0
	for ; i > 0; i /= base {
		k /= float64(base)
		out += k * float64(i%base)
	}
	return out
}
