package sitting

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// A Gate is the outcome of a stroke between two blockers: the blocker that the ball
// hit first, or neither.
type Gate int

// The outcomes.
const (
	Left Gate = iota
	Clean
	Right
	outcomes // number of outcomes
)

// A Mark records where the ball's centre crossed a line across the table.
type Mark struct {
	At     unit.Length // sideways from the aim line, positive to the right
	Line   unit.Length // distance of the line down the table, from the ball's centre at rest
	Read   unit.Length // standard deviation of the reading
	Across unit.Length // playing width of the table; a wrong mark may be anywhere in it
}

// The standard deviations of reading a mark: by eye, and with a ruler on a marked
// spot. Common practice, no source.
const (
	ByEye   = 3 * unit.Millimetre
	ByRuler = 1 * unit.Millimetre
)

// A Film holds the launch angle, positions and speed of a ball, read from video
// frames. Cov is the symmetric covariance matrix of Launch, the positions in At in
// order, and Speed, with units built from rad, m and m/s.
type Film struct {
	Launch unit.Angle // plan angle to the aim line at which the ball leaves the tip
	Lines  []unit.Length
	At     []unit.Length // sideways position at each line, positive to the right
	Speed  unit.Speed    // speed of the ball as it leaves the tip
	Cov    [][]float64
	Across unit.Length
}

// A measure computes a number from a path, to be compared with a sight.
type measure func(*motion.Path) (float64, error)

// A scalar is an observed number, or a range that the number was observed to be
// in, with the measure that predicts it from a path.
type scalar struct {
	of       measure
	from, to float64 // the range; when exact, from is the number
	exact    bool
	read     float64 // standard deviation of reading an exact number
	turn     float64 // derivative with respect to a rotation of the whole path, per radian
	odds     float64 // its probability, or density, when the stroke was recorded wrongly
}

func (g Gate) check(*shot.Shot) error {
	if g < Left || g > Right {
		return ErrOutcome
	}
	return nil
}

func (Gate) line(s *shot.Shot) unit.Length { return s.Gate.Dist }

func (g Gate) sees(s *shot.Shot) []scalar {
	from, to := g.span(corridor(s))
	return []scalar{{of: crossing(s.Gate.Dist), from: from, to: to, turn: float64(s.Gate.Dist), odds: 1 / float64(outcomes)}}
}

func (g Gate) mirror() Sight { return Right - g }

// span returns the range of the centre's sideways position at the gate for an
// outcome, in metres. half is half the width of the corridor, in metres.
func (g Gate) span(half float64) (from, to float64) {
	switch g {
	case Left:
		return math.Inf(-1), -half
	case Right:
		return half, math.Inf(1)
	}
	return -half, half
}

func (m Mark) check(*shot.Shot) error {
	switch {
	case !(unit.Abs(m.At) <= m.Across):
		return ErrBeyond
	case !(m.Read > 0):
		return ErrRead
	}
	return nil
}

func (m Mark) line(*shot.Shot) unit.Length { return m.Line }

func (m Mark) sees(*shot.Shot) []scalar {
	return []scalar{{of: crossing(m.Line), from: float64(m.At), exact: true, read: float64(m.Read), turn: float64(m.Line), odds: 1 / float64(m.Across)}}
}

func (m Mark) mirror() Sight {
	m.At = -m.At
	return m
}

// crossing returns a measure of the sideways position, in metres, at which a path
// crosses a line.
func crossing(line unit.Length) measure {
	return func(p *motion.Path) (float64, error) {
		when, err := p.AtLine(line)
		if err != nil {
			return 0, ErrNoCrossing
		}
		there, _ := p.At(when)
		return there.Pos.X, nil
	}
}

func (f Film) check(*shot.Shot) error {
	n := len(f.At) + 2
	if len(f.Lines) != len(f.At) || len(f.Cov) != n {
		return ErrFilm
	}
	for _, at := range f.At {
		if !(unit.Abs(at) <= f.Across) {
			return ErrBeyond
		}
	}
	if _, ok := stat.Cholesky(f.Cov); !ok {
		return ErrFilm
	}
	return nil
}

func (f Film) line(*shot.Shot) unit.Length {
	far := unit.Length(0)
	for i, line := range f.Lines {
		if i == 0 || line < far {
			far = line
		}
	}
	if len(f.Lines) == 0 {
		return 1 // a launch alone needs no line
	}
	return far
}

func (f Film) mirror() Sight {
	f.Launch = -f.Launch
	at := make([]unit.Length, len(f.At))
	for i, v := range f.At {
		at[i] = -v
	}
	f.At = at
	cov := make([][]float64, len(f.Cov))
	last := len(cov) - 1
	for i, row := range f.Cov {
		cov[i] = append([]float64(nil), row...)
		if i != last { // the speed does not change sign
			cov[i][last] = -cov[i][last]
		} else {
			for j := range last {
				cov[i][j] = -cov[i][j]
			}
		}
	}
	f.Cov = cov
	return f
}

// sees whitens the film's numbers and rotates them so that turning the whole path
// changes only the first. The results are independent readings with a standard
// deviation of 1, and the player's scatter affects only the first.
func (f Film) sees(s *shot.Shot) []scalar {
	n := len(f.At) + 2
	root, _ := stat.Cholesky(f.Cov)
	measures := []measure{func(p *motion.Path) (float64, error) {
		start, _ := p.At(0)
		return float64(motion.Bearing(start.Vel)), nil
	}}
	seen, turn := []float64{float64(f.Launch)}, []float64{1}
	for i, line := range f.Lines {
		measures = append(measures, crossing(line))
		seen, turn = append(seen, float64(f.At[i])), append(turn, float64(line))
	}
	measures = append(measures, func(p *motion.Path) (float64, error) {
		start, _ := p.At(0)
		return start.Vel.Norm(), nil
	})
	seen, turn = append(seen, float64(f.Speed)), append(turn, 0)

	along := root.Solve(turn)
	size := 0.0
	for _, v := range along {
		size += v * v
	}
	size = math.Sqrt(size)
	// Householder reflection that maps along onto the first axis.
	reflect := make([]float64, n)
	copy(reflect, along)
	reflect[0] += math.Copysign(size, along[0])
	square := 0.0
	for _, v := range reflect {
		square += v * v
	}
	mirror := func(v []float64) []float64 {
		dot := 0.0
		for i := range v {
			dot += v[i] * reflect[i]
		}
		out := make([]float64, n)
		for i := range v {
			out[i] = v[i] - 2*dot/square*reflect[i]
		}
		return out
	}
	whole := func(p *motion.Path) ([]float64, error) {
		raw := make([]float64, n)
		for i, m := range measures {
			v, err := m(p)
			if err != nil {
				return nil, err
			}
			raw[i] = v
		}
		return mirror(root.Solve(raw)), nil
	}
	at := mirror(root.Solve(seen))
	out := make([]scalar, n)
	for i := range out {
		out[i] = scalar{from: at[i], exact: true, read: 1, odds: 1e-3, of: func(p *motion.Path) (float64, error) {
			v, err := whole(p)
			if err != nil {
				return 0, err
			}
			return v[i], nil
		}}
	}
	out[0].turn = -math.Copysign(size, along[0])
	return out
}
