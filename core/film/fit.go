package film

import (
	"math"
	"slices"

	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A Fitted is a frame beside the path that was fitted.
type Fitted struct {
	Frame
	Used  bool    // it is one of those that the path was fitted to
	Off   float64 // distance from the path in pixels
	Place         // where the path has the ball
}

// A Result is a stroke as the film has it.
type Result struct {
	Launch   stat.Estimate[unit.Angle] // plan angle to the aim line as the ball leaves tip and bed, positive to the right
	Speed    stat.Estimate[unit.Speed] // at that moment; see the package about pictures read row by row
	SpeedErr error                     // why the speed is not to be trusted; the launch still is
	Frames   []Fitted
	Path     motion.Path // in time from Start
	Start    unit.Span   // when the ball left the tip, in the film's time
	Rms      float64     // of the frames used, in pixels

	stroke   *Stroke
	slow     float64 // how many times slower than the stroke the film's times are
	rebound  float64
	p        []float64
	cov      [][]float64
	furthest float64 // distance down the table of the last frame used
}

// The parameters of a path, after those of the camera, which are how far it is from its
// calibration along the columns of the root of its covariance.
const (
	launch = viewSize + iota
	logSpeed
	begin // seconds from the first frame
	offX  // of all places in the picture, in pixels: the outline's error at rest
	offY
	driftAlong // of the places along the way and across it, as a share of the distance in the picture
	driftAcross
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
	acrossError = 0.07
	alongError  = 0.15
	blurError   = 0.01
)

// restError is how well the outline of the ball at rest is known, in pixels. All places of
// the moving ball are off by as much, since they are found by how it looked at rest.
const restError = 0.3

// How the places drift as the ball comes into other light, as a share of the distance in the
// picture, along the way and across it.
const (
	driftAlongError  = 0.004
	driftAcrossError = 0.0005
)

// Fit fits a path to the frames that are not struck out. Camera and path are varied
// together, the camera within its calibration and the spin and the cloth within what is
// expected; frames far off are left out. Errors: ErrFew, ErrResidual, ErrVague.
func (k *Stroke) Fit(e Expect) (*Result, error) {
	use, noise := k.clean(), 1.0
	var best *try
	for round := 0; ; round++ {
		var err error
		if best, err = k.fit(e, use, 1, noise); err != nil {
			return nil, err
		}
		again, changed := best.outliers(use)
		if round > 0 && !changed || round == 4 {
			break
		}
		use, noise = again, math.Max(1, noise*best.scatter())
	}
	// A slow-motion file whose times are as if it had not been slowed shows a ball that
	// loses speed too slowly.
	plain := best.sum
	for _, slow := range []float64{2, 4, 8, 16} {
		if r, err := k.fit(e, use, slow, noise); err == nil && r.sum < min(best.sum, plain-lies) {
			best = r
			best.SpeedErr = ErrSlowMotion
		}
	}
	if best.Rms > worstRms {
		return nil, ErrResidual
	}
	if best.Launch.To-best.Launch.From > widest {
		return nil, ErrVague
	}
	return best.Result, nil
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
	dx, dy := f.At.X-at.X-p[offX], f.At.Y-at.Y-p[offY]
	far := math.Hypot(at.X-rest.X, at.Y-rest.Y)
	return dx*f.cos + dy*f.sin - p[driftAlong]*far, dy*f.cos - dx*f.sin - p[driftAcross]*far, ok1 && ok2
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
	m := len(k.Frames)
	resid := func(p, out []float64) bool {
		if math.Abs(p[launch]) > 1 || p[logSpeed] > 4 || p[logSpeed] < -4 {
			return false
		}
		l := k.stand.moved(p)
		path := k.path(p, slow, e.Rebound)
		for i := range k.Frames {
			f := &k.Frames[i]
			s, _ := path.At(f.Time - t0 - unit.Span(p[begin]))
			along, across, ok := k.off(f, &l, s.Pos, p)
			if !ok {
				return false
			}
			out[2*i] = along / (noise * math.Hypot(alongError+blurError*f.Blur, f.along))
			out[2*i+1] = across / (noise * math.Hypot(acrossError, f.across))
		}
		copy(out[2*m:], p[:viewSize])
		out = out[2*m+viewSize:]
		for i, r := range []float64{
			p[offX] / restError, p[offY] / restError,
			p[driftAlong] / driftAlongError, p[driftAcross] / driftAcrossError,
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
	q := problem{count: 2*m + viewSize + 9, step: make([]float64, pathSize)}
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
	t := &try{Result: &Result{stroke: k, slow: slow, rebound: e.Rebound, p: p, Path: k.path(p, slow, e.Rebound), Start: t0 + unit.Span(p[begin])}, sum: sum, resid: out[:2*m]}
	t.measure(cov, use, n)
	return t, nil
}

// measure fills in the result from the parameters and their covariance.
func (t *try) measure(cov [][]float64, use []bool, n int) {
	k := t.stroke
	frames, pixels := 0.0, 0.0
	l := k.stand.moved(t.p)
	for i := range k.Frames {
		f := &k.Frames[i]
		s, _ := t.Path.At(f.Time - t.Start)
		along, across, _ := k.off(f, &l, s.Pos, t.p)
		off := math.Hypot(along, across)
		t.Frames = append(t.Frames, Fitted{*f, use[i], off, place(s.Pos)})
		if use[i] {
			frames += t.resid[2*i]*t.resid[2*i] + t.resid[2*i+1]*t.resid[2*i+1]
			pixels += off * off
			t.furthest = math.Max(t.furthest, s.Pos.Y)
		}
	}
	t.Rms = math.Sqrt(pixels / float64(n))
	t.chi2, t.used = frames, n
	t.cov = cov
	t.Launch = stat.NormalEstimate(unit.Angle(t.p[launch]), unit.Angle(math.Sqrt(cov[launch][launch])))
	v := math.Exp(t.p[logSpeed]) * math.Hypot(1, math.Max(0, t.p[rise]))
	t.Speed = stat.NormalEstimate(unit.Speed(v), unit.Speed(v*math.Sqrt(cov[logSpeed][logSpeed])))
}

// across returns how far to the side the path crosses a line, and its derivatives.
func (r *Result) across(line float64) (x float64, slope []float64, err error) {
	at := func(p []float64) (float64, error) {
		path := r.stroke.path(p, r.slow, r.rebound)
		when, err := path.AtLine(unit.Length(line))
		if err != nil {
			return 0, ErrNoLine
		}
		s, _ := path.At(when)
		return s.Pos.X, nil
	}
	if x, err = at(r.p); err != nil {
		return 0, nil, err
	}
	slope = make([]float64, pathSize)
	p := slices.Clone(r.p)
	for i := viewSize; i < pathSize; i++ {
		const d = 1e-5
		p[i] = r.p[i] + d
		forth, err1 := at(p)
		p[i] = r.p[i] - d
		back, err2 := at(p)
		p[i] = r.p[i]
		if err1 == nil && err2 == nil {
			slope[i] = (forth - back) / (2 * d)
		}
	}
	return x, slope, nil
}

// beyond is how much further than it was seen a ball is followed, as a share.
const beyond = 1.3

// Arrival returns how far to the side of the aim line the ball crosses a line across the
// table, positive to the right. It returns ErrNoLine if the ball does not get there, or was
// last seen well short of it.
func (r *Result) Arrival(line unit.Length) (stat.Estimate[unit.Length], error) {
	var none stat.Estimate[unit.Length]
	if !(line > 0 && float64(line) < beyond*r.furthest) {
		return none, ErrNoLine
	}
	x, slope, err := r.across(float64(line))
	if err != nil {
		return none, err
	}
	return stat.NormalEstimate(unit.Length(x), unit.Length(math.Sqrt(r.joint(slope, slope)))), nil
}

// joint returns the covariance of two quantities with the given derivatives.
func (r *Result) joint(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * dot(r.cov[i], b)
	}
	return sum
}

// Sight returns the stroke as evidence for package sitting: launch, where it crosses the
// lines, and speed, with their covariance. across is the width of the table. If the speed
// is not to be trusted it is given an error so great that it tells nothing. Errors:
// ErrNoLine.
func (r *Result) Sight(lines []unit.Length, across unit.Length) (sitting.Film, error) {
	f := sitting.Film{Launch: r.Launch.Median, Speed: r.Speed.Median, Lines: slices.Clone(lines), Across: across}
	one := func(i int, of float64) []float64 {
		s := make([]float64, pathSize)
		s[i] = of
		return s
	}
	slopes := [][]float64{one(launch, 1)}
	for _, line := range lines {
		if !(line > 0 && float64(line) < beyond*r.furthest) {
			return f, ErrNoLine
		}
		x, slope, err := r.across(float64(line))
		if err != nil {
			return f, err
		}
		f.At = append(f.At, unit.Length(x))
		slopes = append(slopes, slope)
	}
	slopes = append(slopes, one(logSpeed, float64(r.Speed.Median)))
	n := len(slopes)
	f.Cov = square(n)
	for i := range n {
		for j := range i + 1 {
			f.Cov[i][j] = r.joint(slopes[i], slopes[j])
			f.Cov[j][i] = f.Cov[i][j]
		}
	}
	// Positions along one path nearly determine each other: what the model leaves out keeps
	// them apart.
	for i := 1; i < n-1; i++ {
		f.Cov[i][i] += float64(apart * apart)
	}
	if r.SpeedErr != nil {
		for i := range n {
			f.Cov[n-1][i], f.Cov[i][n-1] = 0, 0
		}
		f.Cov[n-1][n-1] = 100 * 100
	}
	return f, nil
}

// apart is the standard deviation of a position by what the model of a path leaves out.
const apart = 0.5 * unit.Millimetre

// Cloth returns the rolling resistance and the sliding friction that the film shows,
// starting from what was expected: a long roll tells the first, a long slide the second.
func (r *Result) Cloth() (roll, slide stat.Estimate[float64]) {
	of := func(i int) stat.Estimate[float64] {
		return stat.Transform(stat.NormalEstimate(r.p[i], math.Sqrt(r.cov[i][i])), math.Exp)
	}
	return of(logRoll), of(logSlide)
}
