package stat

import "math"

// A Root is the lower triangle L of a symmetric positive definite matrix L·Lᵀ.
type Root [][]float64

// Cholesky returns the root of a matrix; ok is false if the matrix is not square,
// symmetric and positive definite.
//
// Source: Golub and Van Loan, Matrix Computations, 4.2.
func Cholesky(m [][]float64) (root Root, ok bool) {
	root = make(Root, len(m))
	for i := range m {
		if len(m[i]) != len(m) {
			return nil, false
		}
		root[i] = make([]float64, i+1)
		for j := range i + 1 {
			if math.Abs(m[i][j]-m[j][i]) > 1e-9*math.Sqrt(math.Abs(m[i][i]*m[j][j])) {
				return nil, false
			}
			sum := m[i][j]
			for k := range j {
				sum -= root[i][k] * root[j][k]
			}
			if i > j {
				root[i][j] = sum / root[j][j]
			} else if sum > 0 {
				root[i][i] = math.Sqrt(sum)
			} else {
				return nil, false
			}
		}
	}
	return root, true
}

// Solve returns L⁻¹v.
func (r Root) Solve(v []float64) []float64 {
	out := make([]float64, len(v))
	for i := range v {
		sum := v[i]
		for k := range i {
			sum -= r[i][k] * out[k]
		}
		out[i] = sum / r[i][i]
	}
	return out
}

// Apply returns L·v.
func (r Root) Apply(v []float64) []float64 {
	out := make([]float64, len(v))
	for i := range v {
		for k := range i + 1 {
			out[i] += r[i][k] * v[k]
		}
	}
	return out
}
