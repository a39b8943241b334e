package film

import (
	"math"

	"pivotbench/core/stat"
)

// A problem is a nonlinear least-squares problem.
type problem struct {
	// residuals writes the residuals at p, each divided by its standard deviation. It
	// returns false if p is impossible.
	residuals func(p, out []float64) bool
	count     int       // number of residuals
	step      []float64 // of each parameter, for derivatives
}

// minimize moves p to a minimum of half the sum of squares by the method of Levenberg and
// Marquardt, and returns the sum of squares. ok is false if the start is impossible.
//
// Source: Moré, The Levenberg-Marquardt algorithm: implementation and theory (1978), from
// memory; derivatives are central differences.
func (q *problem) minimize(p []float64, rounds int) (sum float64, ok bool) {
	r, trial := make([]float64, q.count), make([]float64, len(p))
	if !q.residuals(p, r) {
		return 0, false
	}
	sum = squares(r)
	damp := 1e-3
	for range rounds {
		normal, slope := q.normal(p, r)
		better := false
		for range 8 {
			damped := make([][]float64, len(p))
			for i := range normal {
				damped[i] = append([]float64(nil), normal[i]...)
				damped[i][i] *= 1 + damp
			}
			move, regular := solve(damped, slope)
			if regular {
				for i := range p {
					trial[i] = p[i] - move[i]
				}
				if q.residuals(trial, r) {
					if s := squares(r); s < sum {
						better = sum-s > 1e-7*(1+sum)
						sum = s
						copy(p, trial)
						damp = math.Max(damp/10, 1e-9)
						break
					}
				}
			}
			damp *= 10
		}
		if !better {
			break
		}
		q.residuals(p, r)
	}
	return sum, true
}

// normal returns JᵀJ and Jᵀr.
func (q *problem) normal(p, r []float64) (normal [][]float64, slope []float64) {
	n := len(p)
	columns := make([][]float64, n)
	back, forth := make([]float64, q.count), make([]float64, q.count)
	at := append([]float64(nil), p...)
	for i := range p {
		at[i] = p[i] + q.step[i]
		ahead := q.residuals(at, forth)
		at[i] = p[i] - q.step[i]
		behind := q.residuals(at, back)
		at[i] = p[i]
		columns[i] = make([]float64, q.count)
		if ahead && behind {
			for k := range columns[i] {
				columns[i][k] = (forth[k] - back[k]) / (2 * q.step[i])
			}
		}
	}
	normal, slope = square(n), make([]float64, n)
	for i := range n {
		for j := range i + 1 {
			normal[i][j] = dot(columns[i], columns[j])
			normal[j][i] = normal[i][j]
		}
		slope[i] = dot(columns[i], r)
	}
	return normal, slope
}

// covariance returns the inverse of JᵀJ at p.
func (q *problem) covariance(p []float64) ([][]float64, bool) {
	r := make([]float64, q.count)
	if !q.residuals(p, r) {
		return nil, false
	}
	normal, _ := q.normal(p, r)
	return invert(normal)
}

// solve returns m⁻¹v for a symmetric positive definite matrix, which it scales first so that
// its diagonal is 1.
func solve(m [][]float64, v []float64) ([]float64, bool) {
	n := len(m)
	scale, scaled, out := make([]float64, n), square(n), make([]float64, n)
	for i := range n {
		if !(m[i][i] > 0) {
			return nil, false
		}
		scale[i] = 1 / math.Sqrt(m[i][i])
		out[i] = v[i] * scale[i]
	}
	for i := range n {
		for j := range n {
			scaled[i][j] = m[i][j] * scale[i] * scale[j]
		}
	}
	root, ok := stat.Cholesky(scaled)
	if !ok {
		return nil, false
	}
	out = root.Solve(out)
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			out[i] -= root[k][i] * out[k]
		}
		out[i] /= root[i][i]
	}
	for i := range out {
		out[i] *= scale[i]
	}
	return out, true
}

// invert returns the inverse of a symmetric positive definite matrix.
func invert(m [][]float64) ([][]float64, bool) {
	n := len(m)
	out := square(n)
	unit := make([]float64, n)
	for j := range n {
		unit[j] = 1
		column, ok := solve(m, unit)
		if !ok {
			return nil, false
		}
		unit[j] = 0
		for i := range n {
			out[i][j] = column[i]
		}
	}
	for i := range n {
		for j := range i {
			out[i][j] = (out[i][j] + out[j][i]) / 2
			out[j][i] = out[i][j]
		}
	}
	return out, true
}

func square(n int) [][]float64 {
	m := make([][]float64, n)
	for i := range m {
		m[i] = make([]float64, n)
	}
	return m
}

func squares(v []float64) float64 { return dot(v, v) }

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
