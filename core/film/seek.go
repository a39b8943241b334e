package film

import (
	"cmp"
	"math"
	"slices"
)

// The radii in pixels at which circles are voted for, at each size of a picture. Each size is
// half of the one before, so all radii up to an eighth of the picture are covered.
const (
	leastRound = 5
	mostRound  = 11
)

// detail is the longest side of the largest picture in which circles are voted for.
const detail = 800

// mostRounds is the greatest number of outlines that are looked at more closely.
const mostRounds = 60

// A round is a circle that may be a ball's outline, and how much of it is an edge.
type round struct {
	ellipse
	worth float64
}

// seek returns the outlines in a picture that may be those of balls, the clearest first.
func seek(p *Picture) []outline {
	var all []round
	scale := 1.0
	for small := *p; min(small.Width, small.Height) > 4*mostRound; small = half(&small) {
		if max(small.Width, small.Height) <= detail {
			all = append(all, rounds(&small, scale)...)
		}
		scale *= 2
	}
	slices.SortFunc(all, func(a, b round) int { return cmp.Compare(b.worth, a.worth) })
	var found []outline
	tried := all[:0]
	for _, c := range all {
		if len(tried) == mostRounds {
			break
		}
		if slices.ContainsFunc(tried, func(t round) bool {
			return math.Hypot(t.X-c.X, t.Y-c.Y) < 0.3*c.long && math.Abs(t.long/c.long-1) < 0.2
		}) {
			continue
		}
		tried = append(tried, c)
		for _, grown := range [2]float64{0.95, 1.25} {
			e := c.ellipse
			e.long, e.short = grown*e.long, grown*e.short
			if o, ok := refine(p, e, 0); ok {
				found = append(found, o)
			}
		}
	}
	slices.SortFunc(found, func(a, b outline) int { return cmp.Compare(b.worth(), a.worth()) })
	var out []outline
	for i := range found {
		if !slices.ContainsFunc(out, func(o outline) bool { return o.holds(found[i].Point) || found[i].holds(o.Point) }) {
			out = append(out, found[i])
		}
	}
	return out
}

// worth is how much an outline looks like that of a whole ball. Large ones win over what is
// seen within them, such as a lamp's reflection.
func (o *outline) worth() float64 { return o.sharp * float64(o.points) * math.Sqrt(o.long) }

// holds reports whether a point is so near the middle that no other ball has its own there.
func (e *ellipse) holds(p Point) bool { return math.Hypot(p.X-e.X, p.Y-e.Y) < 1.1*e.long }

// half returns a picture of half the size.
func half(p *Picture) Picture {
	w, h := p.Width/2, p.Height/2
	out := Picture{Width: w, Height: h, Stride: w, Luma: make([]byte, w*h)}
	for y := range h {
		top, low := p.Luma[2*y*p.Stride:], p.Luma[(2*y+1)*p.Stride:]
		for x := range w {
			out.Luma[y*w+x] = byte((int(top[2*x]) + int(top[2*x+1]) + int(low[2*x]) + int(low[2*x+1]) + 2) / 4)
		}
	}
	return out
}

// rounds finds circles: each edge votes for the points that lie a radius away from it, to
// either side. A place that edges all around have voted for is the middle of a circle.
//
// Source: Kimme, Ballard and Sklansky, Finding circles by an array of accumulators, Comm.
// ACM 18 (1975) 120, from memory.
func rounds(p *Picture, scale float64) (out []round) {
	w, h := p.Width, p.Height
	votes := make([][]float32, mostRound+1)
	for r := leastRound; r <= mostRound; r++ {
		votes[r] = make([]float32, w*h)
	}
	for y := 1; y < h-1; y++ {
		for x := 1; x < w-1; x++ {
			o := y*p.Stride + x
			gx := float64(p.Luma[o+1]) - float64(p.Luma[o-1])
			gy := float64(p.Luma[o+p.Stride]) - float64(p.Luma[o-p.Stride])
			size := math.Hypot(gx, gy)
			if size < faintest {
				continue
			}
			vote := float32(min(size, clear))
			gx, gy = gx/size, gy/size
			for r := leastRound; r <= mostRound; r++ {
				for _, far := range [2]float64{float64(r), float64(-r)} {
					i, j := int(float64(x)+far*gx+0.5), int(float64(y)+far*gy+0.5)
					if i > 0 && j > 0 && i < w && j < h {
						votes[r][j*w+i] += vote
					}
				}
			}
		}
	}
	for r := leastRound; r <= mostRound; r++ {
		around := boxed(votes[r], w, h)
		least := float32(leastRoundness * clear * 2 * math.Pi * float64(r))
		for y := 2; y < h-2; y++ {
			for x := 2; x < w-2; x++ {
				o := y*w + x
				v := around[o]
				if v < least || v < around[o-1] || v < around[o-w] || v <= around[o+1] || v <= around[o+w] {
					continue
				}
				size := float64(r) * scale
				out = append(out, round{
					ellipse{Point{(float64(x) + 0.5) * scale, (float64(y) + 0.5) * scale}, size, size, 1, 0},
					float64(v) / float64(r),
				})
			}
		}
	}
	return out
}

// faintest is the least step of luma, over two pixels, that is an edge.
const faintest = 10

// leastRoundness is the least share of a circle that must be a clear edge.
const leastRoundness = 0.35

// boxed returns sums over squares of 3 by 3.
func boxed(v []float32, w, h int) []float32 {
	out := make([]float32, len(v))
	for y := 1; y < h-1; y++ {
		for x := 1; x < w-1; x++ {
			o := y*w + x
			for _, q := range [3]int{o - w, o, o + w} {
				out[o] += v[q-1] + v[q] + v[q+1]
			}
		}
	}
	return out
}
