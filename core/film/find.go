package film

import (
	"cmp"
	"math"
	"slices"

	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A care is how well outlines are known: the standard deviations of their middle in pixels and
// as a share of their radius, and of their size as a share.
type care struct{ pixels, middle, size float64 }

// The outlines of balls that nobody has marked, at first taken for circles, and then with the
// form and about the size that a camera gives them. Found on rendered films.
var (
	atFirst = care{1, 0.06, 0.06}
	closer  = care{0.5, 0.03, 0.02}
)

// rollSpread is the standard deviation in radians of how far a phone is turned from level.
// Common practice, no source.
const rollSpread = 0.12

// The greatest sums of squares at which outlines are taken for the balls of a layout, at first
// and when looked at closer, and by how much any other choice of outlines must be worse.
const (
	mostUnlike   = 35
	mostDiffer   = 25
	leastAhead   = 12
	mostCompared = 12 // choices that are looked at closer
)

// Find looks for the balls of a layout in a picture without any marks, and returns them with
// Mark and Radius set, for a person to confirm. It looks for outlines and chooses those that
// a camera above the table, held about level, would see in the layout's places. The cue ball
// must be brighter than the cloth. There must be three balls at least; the more there are, the
// surer the choice.
//
// It proposes all balls or none. Errors: ErrPicture, ErrNoCue, ErrNoTarget, ErrFewMarks;
// ErrNotFound if no choice fits, or more than one.
func Find(first Picture, radius unit.Length, balls []Ball) ([]Ball, error) {
	if err := first.check(); err != nil {
		return nil, err
	}
	if err := enough(balls, nil); err != nil {
		return nil, err
	}
	f := finder{first: &first, radius: float64(radius), balls: balls, outlines: seek(&first)}
	f.order()
	for _, share := range focals {
		f.place(share * float64(max(first.Width, first.Height)))
	}
	f.choose(make([]int, 0, len(balls)), 1<<len(focals)-1)
	best, ok := f.compare()
	if !ok {
		return nil, ErrNotFound
	}
	out := slices.Clone(balls)
	for i, n := range f.sequence {
		out[n].Mark, out[n].Radius = best.outlines[i].Point, best.outlines[i].mean()
	}
	return out, nil
}

// focals are the focal lengths that are tried, as shares of the picture's longer side.
var focals = [...]float64{0.55, 0.7, 0.85, 1}

// A finder chooses outlines for balls.
type finder struct {
	first    *Picture
	radius   float64
	balls    []Ball
	sequence []int     // the order in which balls are chosen for: cue ball and target first
	outlines []outline // in the picture
	places   [][]vec.V // in the camera's axes, for each focal length and outline
	choices  []choice
}

// A choice is an outline for each ball, in the finder's sequence, and the camera that sees
// them so.
type choice struct {
	outlines []outline
	view     view
	sum      float64 // of squares
}

// order puts the cue ball and the target first.
func (f *finder) order() {
	for _, first := range []func(Role) bool{
		func(r Role) bool { return r == Cue },
		func(r Role) bool { return r == Target },
		func(r Role) bool { return r != Cue && r != Target },
	} {
		for i := range f.balls {
			if first(f.balls[i].Role) {
				f.sequence = append(f.sequence, i)
			}
		}
	}
}

// place works out where the balls with the outlines would be, from their sizes. See
// lens.ball: a ball off the camera's axis looks larger by the root of 1/cos of the angle.
func (f *finder) place(focal float64) {
	var at []vec.V
	for i := range f.outlines {
		o := &f.outlines[i]
		v := vec.V{X: (o.X - float64(f.first.Width)/2) / focal, Y: (o.Y - float64(f.first.Height)/2) / focal, Z: 1}
		at = append(at, v.Mul(focal*f.radius*math.Sqrt(v.Norm())/o.mean()))
	}
	f.places = append(f.places, at)
}

// choose chooses an outline for the next ball, and for those after it. chosen are the ones
// that have been; open says, bit by bit, with which focal lengths their distances agree.
func (f *finder) choose(chosen []int, open int) {
	n := len(chosen)
	if n == len(f.balls) {
		f.judge(chosen)
		return
	}
	for i := range f.outlines {
		if slices.Contains(chosen, i) || n == 0 && !f.isCue(i) {
			continue
		}
		still := open
		for k := range f.places {
			if still&(1<<k) != 0 && !f.agrees(f.places[k], append(chosen, i)) {
				still &^= 1 << k
			}
		}
		if still != 0 && f.turnsRight(append(chosen, i)) {
			f.choose(append(chosen, i), still)
		}
	}
}

// isCue reports whether an outline, which may be off by a good part of its size, is brighter
// inside than the cloth about it.
func (f *finder) isCue(i int) bool {
	e := &f.outlines[i].ellipse
	in, out := 0.0, 0.0
	for k := range rays {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / rays)
		a, b := e.of(0.6*cos, 0.6*sin), e.of(1.5*cos, 1.5*sin)
		in += f.first.at(a.X, a.Y) / rays
		out += f.first.at(b.X, b.Y) / rays
	}
	return in-out > faint/2
}

// agrees reports whether the last ball chosen is about as far from the others as the layout
// has it.
func (f *finder) agrees(places []vec.V, chosen []int) bool {
	last := len(chosen) - 1
	at, b := places[chosen[last]], &f.balls[f.sequence[last]]
	for k, i := range chosen[:last] {
		o := &f.balls[f.sequence[k]]
		way := at.Sub(places[i])
		far := way.Norm()
		if far == 0 {
			return false
		}
		// A size that is off moves a ball along the ray on which it is seen.
		off := math.Hypot(atFirst.size*at.Dot(way)/far, atFirst.size*places[i].Dot(way)/far)
		off = math.Hypot(off, 3*atFirst.middle*f.radius)
		want := math.Hypot(float64(o.At.X-b.At.X), float64(o.At.Y-b.At.Y))
		if math.Abs(far-want) > 3*off+0.05*want {
			return false
		}
	}
	return true
}

// turnsRight reports whether the last ball chosen lies on the same side of the lines through
// two others as in the layout.
func (f *finder) turnsRight(chosen []int) bool {
	last := len(chosen) - 1
	for k := range last {
		for m := range k {
			var balls [3]*Ball
			var seen [3]*outline
			for i, n := range [3]int{last, k, m} {
				balls[i], seen[i] = &f.balls[f.sequence[n]], &f.outlines[chosen[n]]
			}
			if mirrored(balls, seen, f.radius) {
				return false
			}
		}
	}
	return true
}

// mirrored reports whether three balls clearly turn the other way round in a picture than they
// do on the table seen from above, which no camera above the table can show.
func mirrored(balls [3]*Ball, seen [3]*outline, radius float64) bool {
	// How far the first lies to the side of the line through the others, in radii.
	a, b := balls[0].At.vec().Sub(balls[2].At.vec()), balls[1].At.vec().Sub(balls[2].At.vec())
	table := (a.X*b.Y - a.Y*b.X) / (b.Norm() * radius)
	px, py := seen[0].X-seen[2].X, seen[0].Y-seen[2].Y
	qx, qy := seen[1].X-seen[2].X, seen[1].Y-seen[2].Y
	picture := (px*qy - py*qx) / (math.Hypot(qx, qy) * seen[0].long)
	// A picture's y goes down, so there the turn is the other way round.
	const clearly = 0.5
	return math.Abs(table) > clearly && math.Abs(picture) > clearly && table*picture > 0
}

// judge fits a camera to a choice and keeps it if that fits.
func (f *finder) judge(chosen []int) {
	best := choice{sum: mostUnlike}
	for _, i := range chosen {
		best.outlines = append(best.outlines, f.outlines[i])
	}
	q := f.problem(best.outlines, atFirst)
	for k := range f.places {
		p := f.start(k, chosen, q)
		if sum, ok := q.minimize(p[:], 15); ok && sum < best.sum {
			best.view, best.sum = p, sum
		}
	}
	if best.sum < mostUnlike {
		f.choices = append(f.choices, best)
	}
}

// compare looks closer at the best choices, and returns the best if it is that by far.
func (f *finder) compare() (best choice, ok bool) {
	slices.SortFunc(f.choices, func(a, b choice) int { return cmp.Compare(a.sum, b.sum) })
	next := math.Inf(1)
	best.sum = mostDiffer
	for i := range f.choices[:min(mostCompared, len(f.choices))] {
		c := &f.choices[i]
		if !f.look(c) {
			continue
		}
		same := ok && c.same(&best)
		switch {
		case c.sum < best.sum && same:
			best = *c
		case c.sum < best.sum:
			if ok {
				next = best.sum
			}
			best, ok = *c, true
		case !same:
			next = min(next, c.sum)
		}
	}
	return best, ok && next > best.sum+leastAhead
}

// same reports whether two choices have the same balls in the same places.
func (c *choice) same(o *choice) bool {
	for i := range c.outlines {
		if !c.outlines[i].holds(o.outlines[i].Point) {
			return false
		}
	}
	return true
}

// look looks closer at a choice, for outlines as its camera would see them.
func (f *finder) look(c *choice) bool {
	for range 2 {
		cam := f.camera()
		cam.is = c.view
		l := cam.lens()
		for i := range c.outlines {
			e, _ := l.ball(f.balls[f.sequence[i]].At.vec(), f.radius)
			if math.Hypot(e.X-c.outlines[i].X, e.Y-c.outlines[i].Y) > 0.7*e.long {
				return false
			}
			o, ok := refine(f.first, e, e.long)
			if !ok {
				return false
			}
			c.outlines[i] = o
		}
		q := f.problem(c.outlines, closer)
		sum, ok := q.minimize(c.view[:], 15)
		if !ok {
			return false
		}
		c.sum = sum
	}
	return true
}

func (f *finder) camera() camera {
	return camera{width: float64(f.first.Width), height: float64(f.first.Height)}
}

// problem returns the fit of a camera to outlines.
func (f *finder) problem(outlines []outline, known care) *problem {
	q := &problem{count: 3*len(outlines) + 3, step: make([]float64, viewSize)}
	for i := range q.step {
		q.step[i] = 1e-5
	}
	cam := f.camera()
	middle := math.Log(focalShare * max(cam.width, cam.height))
	q.residuals = func(p, out []float64) bool {
		copy(cam.is[:], p)
		l := cam.lens()
		if l.eye.Z < 2*f.radius || math.Abs(p[bend]) > 0.1 {
			return false
		}
		for i := range outlines {
			o := &outlines[i]
			e, ok := l.ball(f.balls[f.sequence[i]].At.vec(), f.radius)
			if !ok {
				return false
			}
			off := math.Hypot(known.pixels, known.middle*o.long)
			out[3*i], out[3*i+1] = (e.X-o.X)/off, (e.Y-o.Y)/off
			out[3*i+2] = math.Log(e.mean()/o.mean()) / math.Hypot(known.size, known.pixels/o.long)
		}
		n := 3 * len(outlines)
		out[n], out[n+1], out[n+2] = (p[logFocal]-middle)/focalSpread, p[bend]/bendSpread, l.rows[0].Z/rollSpread
		return true
	}
	return q
}

// start returns a view to begin with: the cue ball and the target where their sizes have
// them, and the table turned about the line through both so that the others fit best.
func (f *finder) start(k int, chosen []int, q *problem) (best view) {
	places := f.places[k]
	cue := places[chosen[0]]
	ahead := places[chosen[1]].Sub(cue)
	ahead = ahead.Mul(1 / ahead.Norm())
	side := ahead.Cross(vec.V{Z: 1})
	if side.Norm() < 1e-3 {
		side = ahead.Cross(vec.V{Y: 1})
	}
	side = side.Mul(1 / side.Norm())
	out, least := make([]float64, q.count), math.Inf(1)
	for i := range 36 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 18)
		up := side.Mul(cos).Add(ahead.Cross(side).Mul(sin))
		right := ahead.Cross(up)
		var v view
		v[logFocal] = math.Log(focals[k] * float64(max(f.first.Width, f.first.Height)))
		v[turnX], v[turnY], v[turnZ] = rotationVector([3]vec.V{
			{X: right.X, Y: ahead.X, Z: up.X}, {X: right.Y, Y: ahead.Y, Z: up.Y}, {X: right.Z, Y: ahead.Z, Z: up.Z},
		})
		v[eyeX], v[eyeY], v[eyeZ] = -right.Dot(cue), -ahead.Dot(cue), -up.Dot(cue)
		if q.residuals(v[:], out) {
			if sum := squares(out); sum < least {
				best, least = v, sum
			}
		}
	}
	return best
}
