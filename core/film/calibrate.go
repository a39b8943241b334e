package film

import (
	"math"

	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// The priors of a camera. The focal length of a phone's main lens is about 0.75 times the
// longer side of the picture; distortion, which phones correct, is a fraction of 1 % at the
// corner. Common practice, no source.
const (
	focalShare  = 0.8
	focalSpread = 0.35 // of its logarithm
	bendSpread  = 0.006
)

// The standard deviation of an edge point, in pixels, as if each had its own error: shading
// shifts neighbours together, so it is more than their scatter. And that of an outline's
// whole size, as lens and codec soften it.
const (
	edgeError = 0.55
	sizeError = 0.3
	sizeShare = 0.01
)

// asCircle is how far an outline that was taken for a circle may be off, in its middle and its
// size, as a share of its radius. Balls near the picture's edge are seen as ellipses.
const asCircle = 0.12

// sizes returns limits to the radius of a marked ball in the picture, in pixels. If nobody has
// said about how large it is, it does not reach the mark of any other.
func sizes(p *Picture, balls []Ball, i int) (low, high float64) {
	if r := balls[i].Radius; r > 0 {
		return 0.8 * r, 1.25 * r
	}
	side := float64(min(p.Width, p.Height))
	low, high = math.Max(4, side/120), side/8
	for k := range balls {
		if k != i {
			high = min(high, math.Hypot(balls[k].Mark.X-balls[i].Mark.X, balls[k].Mark.Y-balls[i].Mark.Y))
		}
	}
	return low, high
}

// information returns the root of the information about an outline's centre and size, if it is
// as yet only taken for a circle or not.
func (o *outline) information(circle bool) stat.Root {
	m, _ := invert(o.normal)
	k := math.Hypot(edgeError, 1.5*o.scatter)
	for i := range m {
		for j := range m {
			m[i][j] *= k * k
		}
	}
	m[2][2] += sizeError*sizeError + sizeShare*sizeShare*o.long*o.long
	if circle {
		for i := range m {
			m[i][i] += asCircle * asCircle * o.long * o.long
		}
	}
	m, _ = invert(m)
	root, _ := stat.Cholesky(m)
	return root
}

// Calibrate finds where the camera stands from balls, and other points, whose place on the
// table is known and which are marked in a picture. Marks of balls are refined by their
// outlines. A Cue and a Target are needed, and at least one more ball or spot; the more
// there are, and the further from the aim line, the better.
//
// It varies the camera and the places within their errors to fit the outlines' centres and
// sizes by least squares. Errors: ErrPicture, ErrNoCue, ErrNoTarget, ErrFewMarks,
// ErrOutside; a *BallError with ErrNoBall or ErrMarks says which mark is wrong.
func Calibrate(first Picture, radius unit.Length, balls []Ball, spots []Spot) (*Stand, error) {
	if err := first.check(); err != nil {
		return nil, err
	}
	if err := enough(balls, spots); err != nil {
		return nil, err
	}
	s := &Stand{radius: float64(radius), balls: append([]Ball(nil), balls...)}
	s.camera.width, s.camera.height = float64(first.Width), float64(first.Height)
	s.found = make([]outline, len(balls))
	for i, b := range balls {
		low, high := sizes(&first, balls, i)
		o, ok := findOutline(&first, b.Mark, low, high)
		if !ok {
			return nil, &BallError{i, b.Role, ErrNoBall}
		}
		s.found[i] = o
		for k := range i {
			for m := range k {
				if mirrored([3]*Ball{&balls[i], &balls[k], &balls[m]}, [3]*outline{&s.found[i], &s.found[k], &s.found[m]}, s.radius) {
					return nil, &BallError{i, b.Role, ErrMarks}
				}
			}
		}
	}
	if err := s.solve(spots, true); err != nil {
		return nil, err
	}
	// Now that the camera is known about, so are the outlines' forms and sizes.
	for round := range 3 {
		l := s.camera.lens()
		for i := range s.balls {
			shape, _ := l.ball(s.balls[i].At.vec(), s.radius)
			size := shape.long
			if round == 0 {
				size = 0 // not well known yet
			}
			if off := math.Hypot(shape.X-s.found[i].X, shape.Y-s.found[i].Y); off > 0.1*shape.long {
				shape.Point = s.found[i].Point
			}
			if o, ok := refine(&first, shape, size); ok {
				s.found[i] = o
			}
		}
		if err := s.solve(spots, false); err != nil {
			return nil, err
		}
	}
	for i := range s.balls {
		s.balls[i].Mark, s.balls[i].Radius = s.found[i].Point, s.found[i].mean()
	}
	return s, nil
}

func enough(balls []Ball, spots []Spot) error {
	var roles [Other + 1]int
	for _, b := range balls {
		roles[b.Role]++
	}
	switch {
	case roles[Cue] != 1:
		return ErrNoCue
	case roles[Target] != 1:
		return ErrNoTarget
	case len(balls)+len(spots) < 3:
		return ErrFewMarks
	}
	return nil
}

func (e *ellipse) mean() float64 { return math.Sqrt(e.long * e.short) }

// scatterOf returns the standard deviations of a ball's place. The cue ball is the origin
// and the target defines the direction of y, so these have no error.
func (b *Ball) scatterOf() (x, y float64) {
	off := float64(b.Off)
	if off == 0 {
		off = float64(ByTape)
	}
	switch b.Role {
	case Cue:
		return 0, 0
	case Target:
		return 0, off
	}
	return off, off
}

// problem returns the fit of a camera to the outlines that were found and to the spots, and
// its parameters, all zero.
func (s *Stand) problem(spots []Spot, start float64, fresh bool) (*problem, []float64) {
	// The unknowns are the view, then two for each ball and spot: how far it is from its
	// place, in standard deviations.
	n := viewSize + 2*len(s.balls) + 2*len(spots)
	q := &problem{count: 5*len(s.balls) + 4*len(spots) + 2, step: make([]float64, n)}
	for i := range q.step {
		q.step[i] = 1e-5
	}
	cam := s.camera
	roots := make([]stat.Root, len(s.balls))
	for i := range s.found {
		roots[i] = s.found[i].information(fresh)
	}
	q.residuals = func(p, out []float64) bool {
		copy(cam.is[:], p)
		l := cam.lens()
		if l.eye.Z < 0.02 || math.Abs(p[bend]) > 0.1 {
			return false
		}
		k, at := 0, viewSize
		for n := range s.balls {
			b, f := &s.balls[n], &s.found[n]
			sx, sy := b.scatterOf()
			e, ok := l.ball(b.At.vec().Add(vec.V{X: sx * p[at], Y: sy * p[at+1]}), s.radius)
			if !ok {
				return false
			}
			dx, dy := e.X-f.X, e.Y-f.Y
			off := [3]float64{dx*f.cos + dy*f.sin, dy*f.cos - dx*f.sin, e.mean() - f.mean()}
			for i := range 3 { // Lᵀ·off, with L·Lᵀ the information
				out[k+i] = 0
				for j := i; j < 3; j++ {
					out[k+i] += roots[n][j][i] * off[j]
				}
			}
			out[k+3], out[k+4] = p[at], p[at+1]
			k, at = k+5, at+2
		}
		for i := range spots {
			b := &spots[i]
			off, read := float64(b.Off), b.Read
			if off == 0 {
				off = float64(ByTape)
			}
			if read == 0 {
				read = ByFinger
			}
			there := b.At.vec().Add(vec.V{X: off * p[at], Y: off * p[at+1], Z: float64(b.Height) - s.radius})
			e, ok := l.point(there)
			if !ok {
				return false
			}
			out[k], out[k+1] = (e.X-b.Mark.X)/read, (e.Y-b.Mark.Y)/read
			out[k+2], out[k+3] = p[at], p[at+1]
			k, at = k+4, at+2
		}
		out[k] = (p[logFocal] - start) / focalSpread
		out[k+1] = p[bend] / bendSpread
		return true
	}
	return q, make([]float64, n)
}

// solve fits the camera.
func (s *Stand) solve(spots []Spot, fresh bool) error {
	start := math.Log(focalShare * max(s.camera.width, s.camera.height))
	q, zero := s.problem(spots, start, fresh)
	n := len(zero)
	best, least := []float64(nil), math.Inf(1)
	if fresh {
		for _, v := range s.starts(start) {
			p := make([]float64, n)
			copy(p, v[:])
			if sum, ok := q.minimize(p, 12); ok && sum < least {
				best, least = p, sum
			}
		}
	} else {
		best = make([]float64, n)
		copy(best, s.camera.is[:])
	}
	root, ok := q.settle(best)
	if !ok {
		return ErrOutside
	}
	s.root = root
	out := make([]float64, q.count)
	q.residuals(best, out)
	copy(s.camera.is[:], best)
	return s.judge(out)
}

// settle moves p, which may be nil, to the minimum and returns the root of the covariance of
// the view.
func (q *problem) settle(p []float64) (stat.Root, bool) {
	if p == nil {
		return nil, false
	}
	q.minimize(p, 60)
	cov, ok := q.covariance(p)
	if !ok {
		return nil, false
	}
	for i := range cov {
		cov[i] = cov[i][:viewSize]
	}
	return stat.Cholesky(cov[:viewSize])
}

// worstFit is how many standard deviations an outline may lie from where it should be.
const worstFit = 7

// judge returns an error about the ball that fits least, if it does not fit at all.
func (s *Stand) judge(out []float64) error {
	worst, most, sum := 0, 0.0, 0.0
	for i := range s.balls {
		r := out[5*i : 5*i+5]
		size := math.Sqrt(squares(r))
		if size > most {
			worst, most = i, size
		}
		sum += r[0]*r[0] + r[1]*r[1]
	}
	s.rms = edgeError * math.Sqrt(sum/float64(2*len(s.balls)))
	if most > worstFit {
		return &BallError{worst, s.balls[worst].Role, ErrMarks}
	}
	return nil
}

// starts returns views from all around the table that look at the balls, from as far as
// the balls' sizes in the picture tell.
func (s *Stand) starts(logF float64) []view {
	mean, size := vec.V{}, 0.0
	for i := range s.balls {
		mean = mean.Add(s.balls[i].At.vec().Mul(1 / float64(len(s.balls))))
		size += s.found[i].mean() / float64(len(s.balls))
	}
	far := math.Exp(logF) * s.radius / size
	var out []view
	for i := range 12 {
		for _, up := range []float64{20, 40, 65} {
			sin, cos := math.Sincos(float64(i) * math.Pi / 6)
			se, ce := math.Sincos(up * math.Pi / 180)
			eye := mean.Add(vec.V{X: far * ce * cos, Y: far * ce * sin, Z: far * se})
			ahead := mean.Sub(eye).Mul(1 / far)
			right := vec.V{X: -sin, Y: cos}
			m := [3]vec.V{right, ahead.Cross(right), ahead}
			var v view
			v[logFocal] = logF
			v[turnX], v[turnY], v[turnZ] = rotationVector(m)
			v[eyeX], v[eyeY], v[eyeZ] = eye.X, eye.Y, eye.Z
			out = append(out, v)
		}
	}
	return out
}
