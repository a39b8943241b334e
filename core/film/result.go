package film

import (
	"math"
	"slices"

	"pivotbench/core/motion"
	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
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
	Speed    stat.Estimate[unit.Speed] // at that moment
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

// measure fills in the result from the parameters and their covariance.
func (t *try) measure(cov [][]float64, use []bool, n int) {
	k := t.stroke
	frames, pixels := 0.0, 0.0
	l := k.stand.moved(t.p)
	for i := range k.Frames {
		f := &k.Frames[i]
		s, _ := t.Path.At(k.when(f, t.p) - t.Start)
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
