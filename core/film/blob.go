package film

import "math"

// A blob is a moving ball in one frame.
type blob struct {
	Point          // outline's centre at mid-exposure
	blur   float64 // length of the way during the exposure, in pixels
	along  float64 // standard deviation of the centre along the way
	across float64 // and across it
	shown  float64 // share of what differs from the background that the ball explains
}

// A window is a frame, or a part of one, and what it would show without the ball.
type window struct {
	Picture         // its top left pixel is pixel (x0, y0) of the frame
	x0, y0  float64 // plus the frame's shake
	light   float64 // how much brighter it is than the background
}

// luma returns the luma at a point in the first picture's pixels.
func (w *window) luma(x, y float64) float64 { return w.at(x-w.x0, y-w.y0) - w.light }

// A way is how a ball is expected to move during an exposure.
type way struct {
	cos, sin float64 // its direction in the picture
	blur     float64 // its length in pixels
	off      float64 // standard deviation of that
	fine     float64 // samples a radius
}

// The parameters of a blob: how far it is from where it was looked for, along and across
// its way, its blur, and its luma: a factor and slopes across the ball.
const (
	blobAlong = iota
	blobAcross
	blobBlur
	blobBright
	blobRight
	blobDown
	blobSize
)

// steadyNoise is the residual of luma beyond which a pixel counts less.
const steadyNoise = 12

// fitBlob fits the cue ball's likeness to a frame about an outline e, by least squares in its
// place, its blur and its luma, with Huber's weights. This is the registration of Lucas and
// Kanade, An iterative image registration technique with an application to stereo vision
// (1981).
func (r *Reader) fitBlob(f *window, e ellipse, w way) (b blob, ok bool) {
	blur, bright, right, down := w.blur, 1.0, 0.0, 0.0
	centre := e.Point
	var info [][]float64
	noise := 0.0
	step := math.Max(1, e.short/w.fine)
	lines := int(1.45*e.long/step) + 1
	r.swath.lay(r.like, &e, &w, step, lines)
	made := -1.0
	for round := range 8 {
		if math.Abs(blur-made) > 0.02*e.short {
			r.pixels = r.swath.smear(&e, &w, step, lines, blur, r.pixels)
			made = blur
		}
		m, v := square(blobSize), make([]float64, blobSize)
		left, all, count := 0.0, 0.0, 0.0
		for i := range r.pixels {
			q := &r.pixels[i]
			x, y := centre.X+q.x, centre.Y+q.y
			back, known := r.backOf(x, y)
			if !known {
				continue
			}
			shows := func(l *likeAt) float64 {
				return bright*float64(l.ball) + right*float64(l.right) + down*float64(l.down) + back*float64(l.bed)
			}
			luma := f.luma(x, y)
			res := luma - shows(&q.mean)
			weight := 1.0
			if size := math.Abs(res); size > steadyNoise {
				weight = steadyNoise * steadyNoise / (size * size)
			}
			diff := luma - back
			all += weight * diff * diff
			left += weight * res * res
			count++
			row := [blobSize]float64{
				shows(&q.along), shows(&q.across), shows(&q.longer),
				float64(q.mean.ball), float64(q.mean.right), float64(q.mean.down),
			}
			for i := range row {
				v[i] += weight * row[i] * res
				for j := range i + 1 {
					m[i][j] += weight * row[i] * row[j]
				}
			}
		}
		if count < 30 || all == 0 {
			return b, false
		}
		noise = math.Sqrt(left / count)
		b.shown = 1 - left/all
		for i := range m {
			m[i][i] = m[i][i]*1.0001 + 1e-6
			for j := range i {
				m[j][i] = m[i][j]
			}
		}
		n2 := math.Max(noise*noise, 4)
		prior := func(i int, off, sd float64) {
			m[i][i] += n2 / (sd * sd)
			v[i] -= n2 / (sd * sd) * off
		}
		prior(blobBlur, blur-w.blur, w.off)
		prior(blobBright, bright-1, 0.2)
		prior(blobRight, right, 0.1)
		prior(blobDown, down, 0.1)
		more, solved := solve(m, v)
		if !solved {
			return b, false
		}
		info = m
		most := 0.35 * e.short
		a, c := min(max(more[blobAlong], -most), most), min(max(more[blobAcross], -most), most)
		centre.X += a*w.cos - c*w.sin
		centre.Y += a*w.sin + c*w.cos
		blur = min(max(blur+min(max(more[blobBlur], -most), most), 0), 6*e.short)
		bright = min(max(bright+more[blobBright], 0.3), 2)
		right, down = min(max(right+more[blobRight], -0.5), 0.5), min(max(down+more[blobDown], -0.5), 0.5)
		if math.Hypot(centre.X-e.X, centre.Y-e.Y) > 2.5*e.long+blur {
			return b, false
		}
		if round > 1 && math.Hypot(more[blobAlong], more[blobAcross]) < 0.02 {
			break
		}
	}
	cov, solved := invert(info)
	if !solved {
		return b, false
	}
	b.Point, b.blur = centre, blur
	noise = math.Max(noise, 2)
	b.along, b.across = noise*math.Sqrt(cov[blobAlong][blobAlong]), noise*math.Sqrt(cov[blobAcross][blobAcross])
	return b, true
}
