package film

import "math"

// A blob is a moving ball in one frame: a disc of the size that the camera tells, blurred
// along its way.
type blob struct {
	Point          // centre at mid-exposure
	blur   float64 // length of the way during the exposure, in pixels
	along  float64 // standard deviation of the centre along the way
	across float64 // and across it
	luma   float64 // of the ball minus that of the background
	shown  float64 // share of what differs from the background that the disc explains
}

// fitBlob fits a blurred disc to what differs from the background about an outline e, by
// least squares in its centre, its blur and a luma that is a linear function of place.
// (cos, sin) is the direction of the way in the picture. hidden says which pixels don't
// count.
func fitBlob(r *Reader, p *Picture, e ellipse, cos, sin, blur float64) (b blob, ok bool) {
	// In units of the semi-axes the ball is a unit disc that moves in the direction (c, s).
	c, s := (cos*e.cos+sin*e.sin)/e.long, (sin*e.cos-cos*e.sin)/e.short
	scale := math.Hypot(c, s) // units a pixel along the way
	c, s = c/scale, s/scale
	soft := 1.2 / e.short
	par := [6]float64{0, 0, math.Max(blur*scale, soft), 0, 0, 0}
	shown, noise := 0.0, 0.0
	var info [][]float64
	for round := range 7 {
		m, v := square(6), make([]float64, 6)
		left, all, count := 0.0, 0.0, 0.0
		reach := 1.35 + par[2]/2 + math.Abs(par[0])
		size := reach * e.long
		step := max(1, int(e.short/14))
		for y := max(1, int(e.Y-size)); y < min(r.height-1, int(e.Y+size)+1); y += step {
			for x := max(1, int(e.X-size)); x < min(r.width-1, int(e.X+size)+1); x += step {
				dx, dy := float64(x)+0.5-e.X, float64(y)+0.5-e.Y
				a, h := (dx*e.cos+dy*e.sin)/e.long, (dy*e.cos-dx*e.sin)/e.short
				u, w := a*c+h*s-par[0], h*c-a*s-par[1]
				if math.Abs(w) > 1.35 || math.Abs(u) > 1.35+par[2]/2 {
					continue
				}
				o := y*r.width + x
				if r.hidden[o] {
					continue
				}
				back := float64(r.back[o])
				diff := p.at(float64(x)+0.5+r.shake.X, float64(y)+0.5+r.shake.Y) - back - r.light
				cover := covered(u, w, par[2], soft)
				if cover < 0.03 && diff < 0 {
					continue // shadow
				}
				k := min(max(u, -1.2), 1.2)
				luma := par[3] + par[4]*k + par[5]*w - back
				if round == 0 {
					luma = r.bright - back
				}
				res := diff - cover*luma
				weight := 1.0
				if size := math.Abs(res); size > 20 {
					weight = 20 / size
				}
				all += diff * diff
				left += weight * res * res
				count++
				const d = 0.03
				row := [6]float64{
					-luma * (covered(u+d, w, par[2], soft) - covered(u-d, w, par[2], soft)) / (2 * d),
					-luma * (covered(u, w+d, par[2], soft) - covered(u, w-d, par[2], soft)) / (2 * d),
					luma * (covered(u, w, par[2]+d, soft) - covered(u, w, par[2]-d, soft)) / (2 * d),
					cover, cover * k, cover * w,
				}
				if round == 0 {
					res += cover * luma // the luma is solved for afresh
					res -= cover * -back
				}
				for i := range row {
					v[i] += weight * row[i] * res
					for j := range i + 1 {
						m[i][j] += weight * row[i] * row[j]
					}
				}
			}
		}
		if count < 30 || all == 0 {
			return b, false
		}
		for i := range m {
			m[i][i] = m[i][i]*1.0001 + 1e-6
			for j := range i {
				m[j][i] = m[i][j]
			}
		}
		m[4][4] += 0.02 * count
		m[5][5] += 0.02 * count
		m[2][2] += 100
		x, solved := solve(m, v)
		if !solved {
			return b, false
		}
		shown, noise = 1-left/all, math.Sqrt(left/count)
		info = m
		par[0] += min(max(x[0], -0.4), 0.4)
		par[1] += min(max(x[1], -0.4), 0.4)
		par[2] = min(max(par[2]+min(max(x[2], -0.4), 0.4), soft), 6)
		if round == 0 {
			par[3], par[4], par[5] = x[3], x[4], x[5]
		} else {
			par[3] += x[3]
			par[4] += x[4]
			par[5] += x[5]
		}
		if math.Abs(par[0]) > 1.6+par[2]/2 || math.Abs(par[1]) > 1.2 {
			return b, false
		}
		if round > 2 && math.Abs(x[0])+math.Abs(x[1]) < 0.003 {
			break
		}
	}
	cov, solved := invert(info)
	if !solved {
		return b, false
	}
	a, h := par[0]*c-par[1]*s, par[0]*s+par[1]*c
	b.Point = Point{e.X + a*e.long*e.cos - h*e.short*e.sin, e.Y + a*e.long*e.sin + h*e.short*e.cos}
	b.blur = par[2] / scale
	noise = math.Max(noise, 2)
	b.along, b.across = noise*math.Sqrt(cov[0][0])/scale, noise*math.Sqrt(cov[1][1])/scale
	b.luma, b.shown = par[3]-r.backAt(e.Point), shown
	return b, true
}

// covered returns the share of the exposure for which a moving unit disc covers a point:
// u along its way from its middle, w across, long the length of the way.
func covered(u, w, long, soft float64) float64 {
	sum := 0.0
	for _, dw := range [2]float64{-0.3, 0.3} {
		v := w + dw*soft
		if half := 1 - v*v; half > 0 {
			half = math.Sqrt(half)
			sum += (min(max(u+long/2, -half), half) - min(max(u-long/2, -half), half)) / long
		}
	}
	return sum / 2
}
