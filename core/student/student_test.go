package student_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"pivotbench/core/student"
)

// gonum/stat: its own Student's t, mean and variance.
func TestAgainstALibrary(t *testing.T) {
	for _, freedom := range []float64{1, 2, 3.7, 10, 60} {
		d := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: freedom}
		for _, p := range []float64{0.5, 0.6, 0.9, 0.95, 0.995} {
			q := student.Quantile(freedom, p)
			assert.InDelta(t, p, d.CDF(q), 1e-10, "%v, %v", freedom, p)
			assert.InDelta(t, 1-p, student.Tail(freedom, q), 1e-10, "%v, %v", freedom, p)
		}
	}
	values := []float64{1.2, 1.9, 0.7, 1.4}
	mean, squares := student.Spread(values)
	wantMean, wantVariance := stat.MeanVariance(values, nil)
	assert.InDelta(t, wantMean, mean, 1e-14)
	assert.InDelta(t, wantVariance, squares/3, 1e-14)
}

// A standard table of Student's distribution: 95 % one-sided (from memory).
func TestPrintedTable(t *testing.T) {
	for freedom, want := range map[float64]float64{1: 6.314, 2: 2.920, 4: 2.132, 10: 1.812, 30: 1.697} {
		assert.InDelta(t, want, student.Quantile(freedom, 0.95), 5e-4)
	}
}
