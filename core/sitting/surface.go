package sitting

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// A forecast is what a measure comes to for every pivot length of the grid, and
// how it follows the set-up's errors: a polynomial in them at each of three pivot
// lengths, and a parabola between those.
type forecast struct {
	mid    [pivots]float64 // without errors
	follow [nodes][terms]float64
	blend  *[nodes][pivots]float64 // how much each node counts along the grid
}

// never is a measure of a ball that does not come so far with this cue: only by
// mistake can the stroke have been noted.
var never = math.Inf(1)

// nodes is how many pivot lengths the polynomials are fitted at.
const nodes = 3

// powers are the polynomial's terms, each as the errors that multiply in it: all
// up to the second order, and the third order of those that swerve hangs on.
var powers = func() (out [][]int) {
	out = append(out, nil)
	swerves := func(d int) bool { return d == ElevationError || d == speed || d == slide }
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

// terms is how many powers there are.
const terms = 31

// row returns the terms with the unknowns at z.
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

// trials is how many paths a polynomial is fitted to.
const trials = 3 * terms

// design holds the errors that those paths have, spread like the prior but a
// little wider, since strokes may move the unknowns away from its middle; and
// what each path adds to each coefficient in a least-squares fit.
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
	// The normal equations, by the inverse of the Gram matrix's root.
	root, _ := stat.Cholesky(gram)
	for t := range terms {
		unit := make([]float64, terms)
		unit[t] = 1
		column := root.Solve(unit)
		for i := range rows {
			along := 0.0
			for s, v := range root.Solve(rows[i][:]) {
				along += v * column[s]
			}
			d.weight[i][t] = along
		}
	}
	return d
}()

// forecasts work out measures of one shot. The error says why none of the cues
// of the grid sends a ball that can be measured.
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
	// Squirt is very nearly inverse to the distance from the ball's centre to
	// the natural pivot, so that inverse is what the parabola is in.
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
					return // errors that stop the ball short count as none
				}
				for term, w := range design.weight[t] {
					out[i].follow[n][term] += w * (v - mid[i])
				}
			})
		}
	}
	return out, nil
}

// exactly returns a shot as it really was with the set-up's errors at z; nil:
// without any.
func (u SetUp) exactly(s shot.Shot, z *[allUnknowns]float64) shot.Shot {
	s = u.off(s, -1, 0)
	if z != nil {
		for d := range setUps {
			s = u.off(s, d, z[d])
		}
	}
	return s
}

// maxScalars is as many numbers as one sight has at the most.
const maxScalars = 16

// off returns by how much errors, as a row of terms, move the measure at each node.
func (f *forecast) off(row *[terms]float64) (by [nodes]float64) {
	for n := range by {
		follow := &f.follow[n]
		for t, v := range row {
			by[n] += v * follow[t]
		}
	}
	return by
}

// at fills in the measure for the pivot lengths of a span, with errors as a row of
// terms.
func (f *forecast) at(row *[terms]float64, from, to int, out *[pivots]float64) {
	by := f.off(row)
	first, second, third := f.blend[0][:to], f.blend[1][:to], f.blend[2][:to]
	for k := from; k < to; k++ {
		out[k] = f.mid[k] + by[0]*first[k] + by[1]*second[k] + by[2]*third[k]
	}
}
