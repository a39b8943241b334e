package sitting

import (
	"math"
	"sync"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// A forecast approximates a measure for every pivot length of the grid and any
// set-up errors. The effect of the errors is a polynomial at each of three pivot
// lengths, interpolated between them by a parabola.
type forecast struct {
	mid    [pivots]float64         // value without errors
	follow [nodes][terms]float64   // polynomial coefficients at each node
	blend  *[nodes][pivots]float64 // interpolation weight of each node along the grid
}

// never is the value of a measure when the ball does not reach the line with this
// pivot length. The stroke can then only have been recorded by mistake.
var never = math.Inf(1)

// nodes is the number of pivot lengths at which polynomials are fitted.
const nodes = 3

// powers lists the polynomial's terms, each as the indices of the errors it
// multiplies: all terms up to second order, and the third-order terms of the errors
// that affect swerve.
var powers = func() (out [][]int) {
	out = append(out, nil)
	swerves := func(d int) bool { return d == ElevationError || d == SpeedError || d == SlideError }
	for a := range setUps {
		out = append(out, []int{a})
		for b := a; b < setUps; b++ {
			out = append(out, []int{a, b})
			for c := b; c < setUps; c++ {
				if swerves(a) && swerves(b) && swerves(c) {
					out = append(out, []int{a, b, c})
				}
			}
		}
	}
	return out
}()

// terms is the number of powers.
const terms = 31

// row returns the values of the polynomial's terms with the unknowns at z.
func row(z *[allUnknowns]float64) (out [terms]float64) {
	for t, errors := range powers {
		v := 1.0
		for _, d := range errors {
			v *= z[d]
		}
		out[t] = v
	}
	return out
}

// trials is the number of paths that a polynomial is fitted to.
const trials = 3 * terms

// design holds the set-up errors of those paths, and the weight of each path in each
// coefficient of the least-squares fit. The errors are distributed like the prior
// but a little wider, because strokes may move the unknowns away from its centre.
var design = func() (d struct {
	z      [trials][allUnknowns]float64
	weight [trials][terms]float64
}) {
	const wider = 1.2
	rows := make([][terms]float64, trials)
	gram := make([][]float64, terms)
	for t := range gram {
		gram[t] = make([]float64, terms)
	}
	for i, u := range stat.Halton(trials, []int{2, 3, 5, 7, 11}, 0) {
		for e := range u {
			d.z[i][e] = wider * stat.NormalQuantile(u[e])
		}
		rows[i] = row(&d.z[i])
		for t, v := range rows[i] {
			for s, w := range rows[i] {
				gram[t][s] += v * w
			}
		}
	}
	// Solve the normal equations with the Cholesky root of the Gram matrix.
	root, _ := stat.Cholesky(gram)
	var columns [terms][]float64
	for t := range columns {
		unit := make([]float64, terms)
		unit[t] = 1
		columns[t] = root.Solve(unit)
	}
	for i := range rows {
		solved := root.Solve(rows[i][:])
		for t, column := range columns {
			for s, v := range solved {
				d.weight[i][t] += v * column[s]
			}
		}
	}
	return d
}()

// forecasts returns the forecasts of some measures of one shot. It returns an error
// when no pivot length of the grid gives a path that can be measured.
func (u SetUp) forecasts(s *shot.Shot, of []measure) ([]forecast, error) {
	out := make([]forecast, len(of))
	var path motion.Path
	var last error
	play := func(at *shot.Shot, pivot float64, into func(int, float64)) {
		at.Cue.Pivot = unit.Length(pivot)
		err := at.Send(&path)
		for i, m := range of {
			v := never
			if err == nil {
				var missed error
				if v, missed = m(&path); missed != nil {
					v, last = never, missed
				}
			} else {
				last = err
			}
			into(i, v)
		}
	}
	straight := u.exactly(*s, nil)
	some := false
	for k, pivot := range grid {
		play(&straight, pivot, func(i int, v float64) {
			out[i].mid[k] = v
			some = some || v != never
		})
	}
	if !some {
		return nil, last
	}
	// Squirt is very nearly proportional to the inverse of the distance from the
	// ball's centre to the natural pivot, so the parabola is in that inverse.
	squirt := func(pivot float64) float64 { return 1 / (pivot + float64(s.Ball.Radius)) }
	least, most := squirt(float64(PivotMost)), squirt(float64(PivotLeast))
	at := [nodes]float64{least, (least + most) / 2, most}
	blend := new([nodes][pivots]float64)
	for n := range nodes {
		for k, pivot := range grid {
			blend[n][k] = 1
			for m := range nodes {
				if m != n {
					blend[n][k] *= (squirt(pivot) - at[m]) / (at[n] - at[m])
				}
			}
		}
	}
	for i := range out {
		out[i].blend = blend
	}
	for n := range nodes {
		pivot := 1/at[n] - float64(s.Ball.Radius)
		var mid [maxScalars]float64
		play(&straight, pivot, func(i int, v float64) { mid[i] = v })
		for t := range trials {
			with := u.exactly(*s, &design.z[t])
			play(&with, pivot, func(i int, v float64) {
				if v == never || mid[i] == never {
					return // a trial whose ball stops short of the line adds nothing
				}
				for term, w := range design.weight[t] {
					out[i].follow[n][term] += w * (v - mid[i])
				}
			})
		}
	}
	return out, nil
}

// A memo remembers the forecasts of shots that were needed lately. A sitting repeats
// its shots, and suggestions look at the same ones after every stroke. It belongs to
// a sitting, and all its posteriors share it.
type memo struct {
	mutex sync.Mutex
	found map[asked]*forecast
}

// asked is what a forecast depends on, apart from the set-up.
type asked struct {
	shot shot.Shot
	line unit.Length
	of   lineMeasure
}

// A lineMeasure is one of the measures that depend on a line alone.
type lineMeasure int

const (
	crossingAt lineMeasure = iota // see crossing
	bearingAt                     // see bearing
)

// remembered is the number of forecasts after which a memo starts afresh. It is more
// than a suggestion needs.
const remembered = 300

// forecast returns the forecast of a measure of one shot at a line.
func (m *memo) forecast(u SetUp, s *shot.Shot, line unit.Length, of lineMeasure) (*forecast, error) {
	key := asked{*s, line, of}
	m.mutex.Lock()
	defer m.mutex.Unlock()
	if f := m.found[key]; f != nil {
		return f, nil
	}
	measures := [...]func(unit.Length) measure{crossingAt: crossing, bearingAt: bearing}
	f, err := u.forecasts(s, []measure{measures[of](line)})
	if err != nil {
		return nil, err
	}
	if m.found == nil || len(m.found) >= remembered {
		m.found = map[asked]*forecast{}
	}
	m.found[key] = &f[0]
	return &f[0], nil
}

// exactly returns the shot with the set-up errors at z applied, or with none when z
// is nil.
func (u SetUp) exactly(s shot.Shot, z *[allUnknowns]float64) shot.Shot {
	s = u.off(s, -1, 0)
	if z != nil {
		for d := range setUps {
			s = u.off(s, d, z[d])
		}
	}
	return s
}

// maxScalars is the largest number of scalars in one sight.
const maxScalars = 16

// off returns the change in the measure at each node due to the errors, given as a
// row of terms.
func (f *forecast) off(row *[terms]float64) (by [nodes]float64) {
	var a, b, c float64 // faster than the array
	for t, v := range row {
		a += v * f.follow[0][t]
		b += v * f.follow[1][t]
		c += v * f.follow[2][t]
	}
	return [nodes]float64{a, b, c}
}

// at fills in the measure for the pivot lengths of the grid from the one with the
// index from. row is the row of terms of the errors.
func (f *forecast) at(row *[terms]float64, from int, out []float64) {
	by := f.off(row)
	to := from + len(out)
	mid := f.mid[from:to]
	first, second, third := f.blend[0][from:to], f.blend[1][from:to], f.blend[2][from:to]
	for k := range out {
		out[k] = mid[k] + by[0]*first[k] + by[1]*second[k] + by[2]*third[k]
	}
}
