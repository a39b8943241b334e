package film

import (
	"math"
	"slices"

	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// The parameters of a path, after those of the camera, which are how far it is from its
// calibration along the columns of the root of its covariance.
const (
	launch = viewSize + iota
	logSpeed
	begin // seconds from the first frame
	offX  // of all places in the picture, in pixels at the ball's size at rest: the outline's error there
	offY
	driftAlong // of the places along the way and across it, as a share of the distance in the picture
	driftAcross
	nearAlong // of the places next to the spot, along the way and across it, in radii of the ball
	nearAcross
	rows // seconds from the exposure of one edge of the picture to that of the opposite one
	rise // speed upward off the bed at the start, as a share of that along it
	slipAhead
	slipAcross
	logSlide
	logRoll
	pathSize
)

// fewest is the least number of frames that a path is fitted to.
const fewest = 4

// The standard deviation in pixels that the ball's place in a frame has at least, across its
// way and along it: shading, codec and the camera's shake. Blur adds a share of its length
// along the way. Found on rendered films.
const (
	acrossError = 0.06
	alongError  = 0.2
	blurError   = 0.01
)

// restError is how well the outline of the ball at rest is known, in pixels. All places of
// the moving ball are off by as much, in proportion to its size, since they are found by how it
// looked at rest.
const restError = 0.25

// How the places drift as the ball comes into other light, as a share of the distance in the
// picture, along the way and across it.
const (
	driftAlongError  = 0.004
	driftAcrossError = 0.0004
)

// rowsMost is a standard deviation of the time in seconds in which a phone's picture is read, row
// by row, and rowsShare of its share of the time from one frame to the next, which it can't
// exceed. Common practice, no source.
const (
	rowsMost  = 0.018
	rowsShare = 0.75
)

// rowsError returns the standard deviation of the time in which a picture is read, in a film
// that is slowed by a factor. The time between frames is a short one of those that the film
// has, but not the shortest, since two times may nearly be the same by a slip.
func (k *Stroke) rowsError(slow float64) float64 {
	var gaps []float64
	for i := 1; i < len(k.Frames); i++ {
		gaps = append(gaps, float64(k.Frames[i].Time-k.Frames[i-1].Time))
	}
	slices.Sort(gaps)
	return min(rowsMost*slow, rowsShare*gaps[len(gaps)/4])
}

// when returns the time of a frame's exposure where the ball is. A sensor's rows run along the
// longer side of the picture, and which of them is read first depends on how the phone is held.
func (k *Stroke) when(f *Frame, p []float64) unit.Span {
	cam := &k.stand.camera
	share := f.At.Y/cam.height - 0.5
	if cam.height > cam.width {
		share = f.At.X/cam.width - 0.5
	}
	return f.Time + unit.Span(p[rows]*share)
}

// How the ball's spot, whose look without the ball is a guess, pulls the places next to it, along
// the way and across it: a standard deviation at the spot, in radii, which fades within so many
// radii. Found on rendered films.
const (
	nearAlongError  = 0.015
	nearAcrossError = 0.005
	nearReach       = 6
)

// Fit fits a path to the frames that are not struck out. Camera and path are varied
// together, the camera within its calibration and the spin and the cloth within what is
// expected; frames far off are left out. Errors: ErrFew, ErrResidual, ErrVague.
func (k *Stroke) Fit(e Expect) (*Result, error) {
	best, err := k.paced(e)
	if err != nil {
		return nil, err
	}
	if best.Rms > worstRms {
		return nil, ErrResidual
	}
	if best.Launch.To-best.Launch.From > widest {
		return nil, ErrVague
	}
	return best.Result, nil
}

// paced fits a path at the pace of time that suits it. A slow-motion file whose times are as if
// it had not been slowed shows a ball that loses speed too slowly, and its path has no speed.
func (k *Stroke) paced(e Expect) (*try, error) {
	best, use, noise, err := k.robust(e)
	if err != nil {
		return nil, err
	}
	plain := best.sum
	for _, slow := range []float64{2, 4, 8, 16} {
		if r, err := k.fit(e, use, slow, noise); err == nil && r.sum < min(best.sum, plain-lies) {
			best = r
			best.SpeedErr = ErrSlowMotion
		}
	}
	return best, nil
}

// robust fits a path to the frames that lie near it. It returns which those are, and how many
// times more they scatter than they should.
func (k *Stroke) robust(e Expect) (best *try, use []bool, noise float64, err error) {
	use, noise = k.clean(), 1.0
	for round := 0; ; round++ {
		if best, err = k.fit(e, use, 1, noise); err != nil {
			return nil, nil, 0, err
		}
		again, changed := best.outliers(use)
		if round > 0 && !changed || round == 4 {
			return best, use, noise, nil
		}
		use, noise = again, math.Max(1, noise*best.scatter())
	}
}

// worstRms is the greatest root mean square of a path's residuals in pixels.
const worstRms = 2.5

// widest is the greatest width of the launch angle's 90 % interval that is of any use.
const widest = 1 * unit.Degree

// lies is by how much the sum of squares has to fall for another pace of time to be
// believed: three standard deviations.
const lies = 9

// clean returns which frames can be used: those not struck out.
func (k *Stroke) clean() []bool {
	use := make([]bool, len(k.Frames))
	for i := range k.Frames {
		use[i] = !k.Frames[i].Struck
	}
	return use
}

// A try is a fit with what it takes to judge it.
type try struct {
	*Result
	sum   float64   // of squares
	resid []float64 // of each frame along and across its way, in standard deviations
	chi2  float64   // sum of their squares
	used  int       // number of frames used
}

// pathFreedom is about how many numbers a path takes from the frames.
const pathFreedom = 5

// doubt is how many residuals' worth the expected scatter counts beside the one that is seen.
const doubt = 4

// scatter returns how many times more the frames scatter about the path than they should.
func (t *try) scatter() float64 {
	return math.Sqrt((t.chi2 + doubt) / (math.Max(0, float64(2*t.used-pathFreedom)) + doubt))
}

// outliers returns use without the frames whose residuals are far from the others', by
// Tukey's fences on their size, and with those that are near again.
func (t *try) outliers(use []bool) (again []bool, changed bool) {
	var sizes []float64
	for i := range use {
		if use[i] {
			sizes = append(sizes, t.size(i))
		}
	}
	slices.Sort(sizes)
	n := len(sizes)
	fence := math.Max(3.5, 3.5*sizes[n/2]/1.18) // 1.18: the median of two standard Normals' length
	again = slices.Clone(use)
	for i := range use {
		if use[i] && t.size(i) > fence && n > fewest {
			again[i], changed = false, true
			n--
		}
	}
	return again, changed
}

func (t *try) size(i int) float64 { return math.Hypot(t.resid[2*i], t.resid[2*i+1]) }

// path returns the path of parameters p.
func (k *Stroke) path(p []float64, slow, rebound float64) (path motion.Path) {
	sin, cos := math.Sincos(p[launch])
	v := math.Exp(p[logSpeed])
	ahead, right := vec.V{X: sin, Y: cos}, vec.V{X: cos, Y: -sin}
	vel := ahead.Mul(v)
	up := vec.V{Z: v * math.Max(0, p[rise])}
	slip := ahead.Mul(v * p[slipAhead]).Add(right.Mul(v * p[slipAcross]))
	r := k.stand.radius
	spin := vec.V{X: (slip.Y - vel.Y) / r, Y: (vel.X - slip.X) / r}
	path.Follow(motion.State{Vel: vel.Add(up), Spin: spin}, unit.Length(r),
		gear.Cloth{Slide: math.Exp(p[logSlide]) / (slow * slow), Roll: math.Exp(p[logRoll]) / (slow * slow), Rebound: rebound})
	return path
}

// moved returns the lens of a camera that is off its calibration by p.
func (s *Stand) moved(p []float64) lens {
	cam := s.camera
	for i, off := range s.root.Apply(p[:viewSize]) {
		cam.is[i] += off
	}
	return cam.lens()
}

// pathStep is the step for derivatives with respect to speed, spin and cloth. A path changes
// suddenly where the ball hops once more, and the step goes over that.
const pathStep = 0.002

// off returns how far a frame has the ball from where a lens would see it at a place, along
// and across its way, in pixels.
func (k *Stroke) off(f *Frame, l *lens, place vec.V, p []float64) (along, across float64, ok bool) {
	at, ok1 := l.ball(place, k.stand.radius)
	rest, ok2 := l.ball(vec.V{}, k.stand.radius)
	size := at.long / rest.long
	dx, dy := f.At.X-at.X-p[offX]*size, f.At.Y-at.Y-p[offY]*size
	far := math.Hypot(at.X-rest.X, at.Y-rest.Y)
	near := at.long * math.Max(0, 1-place.Norm()/(nearReach*k.stand.radius))
	along = dx*f.cos + dy*f.sin - p[driftAlong]*far - p[nearAlong]*near
	across = dy*f.cos - dx*f.sin - p[driftAcross]*far - p[nearAcross]*near
	return along, across, ok1 && ok2
}

// fit fits a path to some frames, in a film that is slowed by a factor, whose places scatter
// by so many times what they should.
func (k *Stroke) fit(e Expect, use []bool, slow, noise float64) (*try, error) {
	n, first, last := 0, -1, 0
	for i, u := range use {
		if u {
			n++
			last = i
			if first < 0 {
				first = i
			}
		}
	}
	if n < fewest {
		return nil, ErrFew
	}
	t0 := k.Frames[first].Time
	m, crowd, rowsOff := len(k.Frames), k.crowding(use), k.rowsError(slow)
	resid := func(p, out []float64) bool {
		if math.Abs(p[launch]) > 1 || p[logSpeed] > 4 || p[logSpeed] < -4 {
			return false
		}
		l := k.stand.moved(p)
		path := k.path(p, slow, e.Rebound)
		for i := range k.Frames {
			f := &k.Frames[i]
			s, _ := path.At(k.when(f, p) - t0 - unit.Span(p[begin]))
			along, across, ok := k.off(f, &l, s.Pos, p)
			if !ok {
				return false
			}
			out[2*i] = along / (noise * crowd[i] * math.Hypot(alongError+blurError*f.Blur, f.along))
			out[2*i+1] = across / (noise * crowd[i] * math.Hypot(acrossError, f.across))
		}
		copy(out[2*m:], p[:viewSize])
		out = out[2*m+viewSize:]
		for i, r := range []float64{
			p[offX] / restError, p[offY] / restError,
			p[driftAlong] / driftAlongError, p[driftAcross] / driftAcrossError,
			p[nearAlong] / nearAlongError, p[nearAcross] / nearAcrossError,
			p[rows] / rowsOff,
			(p[rise] - e.Rise) / e.RiseOff,
			(p[slipAhead] - e.Ahead) / e.AheadOff,
			(p[slipAcross] - e.Across) / e.AcrossOff,
			(p[logSlide] - math.Log(e.Slide)) / e.SlideOff,
			(p[logRoll] - math.Log(e.Roll)) / e.RollOff,
		} {
			out[i] = r
		}
		return true
	}
	q := problem{count: 2*m + viewSize + 12, step: make([]float64, pathSize)}
	q.residuals = func(p, out []float64) bool {
		if !resid(p, out) {
			return false
		}
		for i, u := range use {
			if !u {
				out[2*i], out[2*i+1] = 0, 0
			}
		}
		return true
	}
	for i := range q.step {
		q.step[i] = 1e-5
	}
	for _, i := range []int{logSpeed, rise, slipAhead, slipAcross, logSlide, logRoll} {
		q.step[i] = pathStep
	}
	p := make([]float64, pathSize)
	a, b := &k.Frames[first], &k.Frames[last]
	p[launch] = bearing(b.place)
	early := b // for the speed at the start: a quarter of the way along
	for i := last; i >= first+max(3, (last-first)/4); i-- {
		if use[i] {
			early = &k.Frames[i]
		}
	}
	speed := math.Max(slowest, float64(early.place.Y-a.place.Y)/float64(early.Time-a.Time))
	p[logSpeed] = math.Log(speed * 1.05)
	p[begin] = -float64(a.place.Y) / speed
	p[rise], p[slipAcross], p[logSlide], p[logRoll] = e.Rise, e.Across, math.Log(e.Slide), math.Log(e.Roll)
	// How long the ball slides has several minima.
	sum, ok := math.Inf(1), false
	start := p
	for _, slip := range []float64{e.Ahead, 0.2, 1, 1.7} {
		trial := slices.Clone(start)
		trial[slipAhead] = slip
		if s, can := q.minimize(trial, 25); can && s < sum {
			p, sum, ok = trial, s, true
		}
	}
	cov, regular := q.covariance(p)
	if !ok || !regular {
		return nil, ErrResidual
	}
	out := make([]float64, q.count)
	resid(p, out)
	for i := range crowd {
		out[2*i] *= crowd[i]
		out[2*i+1] *= crowd[i]
	}
	t := &try{Result: &Result{stroke: k, slow: slow, rebound: e.Rebound, p: p, Path: k.path(p, slow, e.Rebound), Start: t0 + unit.Span(p[begin])}, sum: sum, resid: out[:2*m]}
	t.measure(cov, use, n)
	return t, nil
}
