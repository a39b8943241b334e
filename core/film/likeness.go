package film

import (
	"math"
	"slices"
)

// A likeness is how the cue ball and its shadow look where the ball rests. A moving ball
// is found by it again. Whatever pulls the centre of an outline to one side, such as a
// dark underside on a dark shadow, does the same to both, so it doesn't bend the path.
//
// It is a square of samples in units of the ball's radius, with the picture's directions.
type likeness struct {
	fine  float64  // samples a radius
	n     int      // samples a side
	looks []likeAt // row by row
	cloth float64  // luma of the bed about the ball
}

// A likeAt is one sample of a likeness: a pixel there shows ball + bed · b if the bed's luma
// is b.
type likeAt struct {
	ball, bed   float32
	right, down float32 // ball times the place in radii, for light that changes across the ball
}

// likeReach is how far a likeness reaches from the ball's centre, in radii.
const likeReach = 1.9

// likenessOf returns the likeness of a ball with a given outline.
func likenessOf(p *Picture, e ellipse) *likeness {
	k := &likeness{fine: min(max(e.mean(), 8), 40)}
	half := int(likeReach*k.fine) + 1
	k.n = 2*half + 1
	k.looks = make([]likeAt, k.n*k.n)
	var around []float64
	for i := range 48 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 48)
		at := e.of(2.1*cos, 2.1*sin)
		around = append(around, p.at(at.X, at.Y))
	}
	slices.Sort(around)
	bed := math.Max(1, around[len(around)/2])
	k.cloth = bed
	rim := 1 + 1.5/e.mean()
	face := faceOf(p, &e)
	for j := range k.n {
		for i := range k.n {
			x, y := float64(i-half)/k.fine, float64(j-half)/k.fine
			far := math.Hypot(x, y)
			disc := min(max((1-far)*e.mean()/1.5+0.5, 0), 1)
			out := Point{x, y}
			if far < rim { // beneath the rim the bed is as dark as beside it
				out = Point{x * rim / (far + 1e-9), y * rim / (far + 1e-9)}
			}
			at := e.of(out.X, out.Y)
			shade := min(max(p.at(at.X, at.Y)/bed, 0.2), 1)
			shade += (1 - shade) * min(max((far-1.5)/0.4, 0), 1)
			look := likeAt{bed: float32((1 - disc) * shade)}
			if far < rim {
				at = e.of(x, y)
				luma := p.at(at.X, at.Y)
				if plain := face.at(x, y); far < inner && luma < dotted*plain {
					luma = plain
				}
				look.ball = float32(luma - (1-disc)*shade*bed)
				look.right, look.down = look.ball*float32(x), look.ball*float32(y)
			}
			k.looks[j*k.n+i] = look
		}
	}
	return k
}

// at returns the likeness at a place in radii.
func (k *likeness) at(x, y float64) likeAt {
	half := float64(k.n / 2)
	x, y = x*k.fine+half, y*k.fine+half
	if !(x >= 0 && y >= 0 && x < float64(k.n-1) && y < float64(k.n-1)) {
		return likeAt{bed: 1}
	}
	i, j := int(x), int(y)
	fx, fy := float32(x-float64(i)), float32(y-float64(j))
	o := j*k.n + i
	a, b, c, d := &k.looks[o], &k.looks[o+1], &k.looks[o+k.n], &k.looks[o+k.n+1]
	wa, wb, wc, wd := (1-fx)*(1-fy), fx*(1-fy), (1-fx)*fy, fx*fy
	return likeAt{
		wa*a.ball + wb*b.ball + wc*c.ball + wd*d.ball,
		wa*a.bed + wb*b.bed + wc*c.bed + wd*d.bed,
		wa*a.right + wb*b.right + wc*c.right + wd*d.right,
		wa*a.down + wb*b.down + wc*c.down + wd*d.down,
	}
}

// of returns the point of a picture that lies so many radii to the right of and below an
// ellipse's centre, before the disc was stretched to the ellipse along its axes.
func (e *ellipse) of(x, y float64) Point {
	xx, xy, yy := e.stretch(e.long, e.short)
	return Point{e.X + xx*x + xy*y, e.Y + xy*x + yy*y}
}

// stretch returns the symmetric matrix that multiplies by long and short along the axes.
func (e *ellipse) stretch(long, short float64) (xx, xy, yy float64) {
	return long*e.cos*e.cos + short*e.sin*e.sin, (long - short) * e.cos * e.sin, long*e.sin*e.sin + short*e.cos*e.cos
}

// Within inner radii of a ball's middle, what is darker than dotted times its face is a dot.
const (
	inner  = 0.9
	dotted = 0.85
)

// A face is the luma of a ball without its dots, which move over it as it rolls: a polynomial in
// the place in radii.
type face [6]float64

func (f *face) at(x, y float64) float64 {
	return f[0] + f[1]*x + f[2]*y + f[3]*x*x + f[4]*x*y + f[5]*y*y
}

// faceOf fits a face to the luma within an outline, by least squares with Tukey's biweight.
func faceOf(p *Picture, e *ellipse) (f face) {
	var spots []Point
	var luma, resid []float64
	for y := -0.9; y <= 0.9; y += 0.06 {
		for x := -0.9; x <= 0.9; x += 0.06 {
			if math.Hypot(x, y) < inner {
				at := e.of(x, y)
				spots, luma = append(spots, Point{x, y}), append(luma, p.at(at.X, at.Y))
			}
		}
	}
	resid = make([]float64, len(luma))
	scale := math.Inf(1)
	for range 8 {
		m, v := square(len(f)), make([]float64, len(f))
		for i, q := range spots {
			row := face{1, q.X, q.Y, q.X * q.X, q.X * q.Y, q.Y * q.Y}
			w := tukey(resid[i] / scale)
			for a := range row {
				v[a] += w * row[a] * luma[i]
				for b := range row {
					m[a][b] += w * row[a] * row[b]
				}
			}
		}
		x, ok := solve(m, v)
		if !ok {
			return f
		}
		copy(f[:], x)
		sizes := make([]float64, len(luma))
		for i, q := range spots {
			resid[i] = luma[i] - f.at(q.X, q.Y)
			sizes[i] = math.Abs(resid[i])
		}
		slices.Sort(sizes)
		scale = math.Max(4.7*1.4826*sizes[len(sizes)/2], 10)
	}
	return f
}
