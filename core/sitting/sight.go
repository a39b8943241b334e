package sitting

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// A Gate is a stroke at two blockers: the one it met first, or neither.
type Gate int

// The outcomes.
const (
	Left Gate = iota
	Clean
	Right
	outcomes // how many there are
)

// A Mark is a stroke whose ball's centre was marked where it came to a line
// across the table.
type Mark struct {
	At     unit.Length // to the right of the aim line
	Line   unit.Length // how far down the table the line is, from the ball's centre at rest
	Read   unit.Length // one standard deviation of reading it
	Across unit.Length // the table's playing width: a wrong mark may be anywhere
}

// The errors of reading a mark, one standard deviation, common practice: by eye,
// and with a ruler on a marked spot.
const (
	ByEye   = 3 * unit.Millimetre
	ByRuler = 1 * unit.Millimetre
)

// A Film is a stroke of which positions were read from pictures. Cov is the
// covariance of Launch, the positions in their order and Speed: a symmetric
// matrix of that size, in rad, m and m/s.
type Film struct {
	Launch unit.Angle // plan angle of the ball as it leaves the tip, against the aim line
	Lines  []unit.Length
	At     []unit.Length // sideways position on each of the lines
	Speed  unit.Speed    // as it leaves the tip
	Cov    [][]float64
	Across unit.Length
}

// A measure is a number of a path that a sight is compared with.
type measure func(*motion.Path) (float64, error)

// A scalar is a number that was seen, or a range it was seen to be in, and how
// to find the like of it in a path.
type scalar struct {
	of       measure
	from, to float64 // the range; the number is from when exact
	exact    bool
	read     float64 // one standard deviation of reading an exact number
	turn     float64 // how the number follows a turn of the whole path, per radian
	odds     float64 // its probability, or density, when the stroke was noted down wrongly
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

// span returns where the ball's centre comes to the line of the gate for an
// outcome, in metres; half is that of the corridor.
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

// crossing measures the sideways position at which a path comes to a line.
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
		if i != last { // the speed alone has no side
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

// sees whitens the film's numbers, and turns them so that a turn of the whole
// path moves the first alone: then they are as good as independent marks read
// to an error of one, of which only the first feels the player's scatter.
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
	// Householder's reflection of along onto the first axis.
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
