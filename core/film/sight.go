package film

import (
	"math"
	"slices"

	"pivotbench/core/unit"
)

// A look is what was seen in one frame.
type look struct {
	at   unit.Span
	seen []sighting
}

// A sighting is a place in a frame where the ball may be.
type sighting struct {
	blob
	crop  *window // the part of the frame about it; nil if hardly any of it is in the picture
	place Place
	cos   float64 // direction of the way in the picture
	sin   float64
}

// samples of a disc: its middle and two rings.
var ring = func() (out [13]Point) {
	for i := range 6 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 3)
		out[1+i] = Point{0.45 * cos, 0.45 * sin}
		sin, cos = math.Sincos((float64(i) + 0.5) * math.Pi / 3)
		out[7+i] = Point{0.8 * cos, 0.8 * sin}
	}
	return out
}()

// score returns how much of a ball-sized disc is as bright as the cue ball.
func (r *Reader) score(p *Picture, e *ellipse) float64 {
	sum, n := 0.0, 0.0
	for _, q := range ring {
		x, y := e.X+q.X*e.long, e.Y+q.Y*e.long
		back := r.backAt(Point{x, y})
		if r.bright-back < faint/2 || r.hidden[int(y)*r.width+int(x)] {
			continue
		}
		sum += min(max((p.at(x+r.shake.X, y+r.shake.Y)-back-r.light)/(r.bright-back), -0.5), 1.1)
		n++
	}
	if n < 7 {
		return 0
	}
	return sum / n
}

// look returns where in a frame the ball may be.
func (r *Reader) look(p *Picture) []sighting {
	type scored struct {
		cell  *cell
		score float64
	}
	var good []scored
	for i := range r.cells {
		if s := r.score(p, &r.cells[i].e); s > 0.3 {
			good = append(good, scored{&r.cells[i], s})
		}
	}
	slices.SortFunc(good, func(a, b scored) int {
		switch {
		case a.score > b.score:
			return -1
		case a.score < b.score:
			return 1
		}
		return 0
	})
	var out []sighting
	var tried []Place
	for _, g := range good {
		if len(tried) >= 2*candidates || len(out) >= candidates {
			break
		}
		if slices.ContainsFunc(tried, func(t Place) bool {
			return math.Hypot(float64(t.X-g.cell.at.X), float64(t.Y-g.cell.at.Y)) < 1.6*r.stand.radius
		}) {
			continue
		}
		tried = append(tried, g.cell.at)
		if s, ok := r.sight(p, g.cell); ok {
			out = append(out, s)
		}
	}
	return out
}

// sight fits the ball near a cell.
func (r *Reader) sight(p *Picture, c *cell) (s sighting, ok bool) {
	f := window{Picture: *p, x0: -r.shake.X, y0: -r.shake.Y, light: r.light}
	e := c.e
	blurs := []float64{0.3 * e.long, 1.2 * e.long}
	for range 2 { // again with the outline that the ball has where it was found
		at, on := r.lens.centre(e.Point, r.stand.radius)
		if !on {
			return s, false
		}
		ahead, front := r.lens.ball(at.Mul(1+0.01/math.Max(0.05, at.Norm())), r.stand.radius)
		here, front2 := r.lens.ball(at, r.stand.radius)
		size := math.Hypot(ahead.X-here.X, ahead.Y-here.Y)
		if !front || !front2 || size == 0 {
			return s, false
		}
		w := way{cos: (ahead.X - here.X) / size, sin: (ahead.Y - here.Y) / size, off: 0.7 * here.long, fine: 7}
		best := blob{}
		for _, w.blur = range blurs {
			if b, fits := r.fitBlob(&f, here, w); fits && b.shown > best.shown {
				best = b
			}
		}
		if best.shown < leastShown {
			return s, false
		}
		s = sighting{blob: best, cos: w.cos, sin: w.sin}
		e, blurs = here, []float64{best.blur}
		e.Point = best.Point
	}
	at, on := r.lens.centre(s.Point, r.stand.radius)
	s.place = place(at)
	if !on || at.Y <= 0 {
		return s, false
	}
	s.crop = r.cut(p, &s, e.long)
	return s, true
}

// leastShown is the least share of what differs from the background that the ball must
// explain.
const leastShown = 0.5

// cut copies the part of a frame about a ball.
func (r *Reader) cut(p *Picture, s *sighting, radius float64) *window {
	x, y := s.X+r.shake.X, s.Y+r.shake.Y
	rx, ry := 2*radius+4+0.7*s.blur*math.Abs(s.cos), 2*radius+4+0.7*s.blur*math.Abs(s.sin)
	x0, y0 := max(0, int(x-rx)), max(0, int(y-ry))
	x1, y1 := min(p.Width, int(x+rx)+1), min(p.Height, int(y+ry)+1)
	size := (x1 - x0) * (y1 - y0)
	if x1-x0 < 8 || y1-y0 < 8 {
		return nil
	}
	r.kept += size
	out := Picture{Width: x1 - x0, Height: y1 - y0, Stride: x1 - x0, Luma: make([]byte, 0, size)}
	for row := y0; row < y1; row++ {
		out.Luma = append(out.Luma, p.Luma[row*p.Stride+x0:row*p.Stride+x1]...)
	}
	return &window{Picture: out, x0: float64(x0) - r.shake.X, y0: float64(y0) - r.shake.Y, light: r.light}
}

// polish fits the ball again in each frame of a stroke, now that its way is known: the
// exposure is the same in all frames, so blur is speed times exposure.
func (r *Reader) polish(k *Stroke) {
	for round := range 2 {
		vel := k.velocities()
		fast := 0.0
		for _, v := range vel {
			fast = math.Max(fast, math.Hypot(v.X, v.Y))
		}
		var shares []float64
		for i := range k.Frames {
			if v := math.Hypot(vel[i].X, vel[i].Y); v > 0.3*fast { // a ball that stops tells nothing
				shares = append(shares, k.Frames[i].Blur/v)
			}
		}
		slices.Sort(shares)
		exposure := shares[len(shares)/2]
		for i := range k.Frames {
			f := &k.Frames[i]
			v := math.Hypot(vel[i].X, vel[i].Y)
			at, on := r.lens.centre(f.At, r.stand.radius)
			e, front := r.lens.ball(at, r.stand.radius)
			if f.from.crop == nil || v == 0 || !on || !front {
				continue
			}
			w := way{cos: vel[i].X / v, sin: vel[i].Y / v, blur: v * exposure, off: 0.02*v*exposure + 0.3, fine: 14}
			if round == 0 {
				w.off *= 4
			}
			if b, ok := r.fitBlob(f.from.crop, e, w); ok {
				f.At, f.Blur, f.along, f.across, f.cos, f.sin = b.Point, b.blur, b.along, b.across, w.cos, w.sin
				at, _ := r.lens.centre(f.At, r.stand.radius)
				f.place = place(at)
			}
		}
	}
	for i := range k.Frames {
		k.Frames[i].from = nil
	}
}

// velocities returns the ball's velocity in each frame in pixels a second.
func (k *Stroke) velocities() []Point {
	out := make([]Point, len(k.Frames))
	for i := range out {
		a, b := &k.Frames[earlier(k.Frames, i)], &k.Frames[later(k.Frames, i)]
		dt := float64(b.Time - a.Time)
		out[i] = Point{(b.At.X - a.At.X) / dt, (b.At.Y - a.At.Y) / dt}
	}
	return out
}
