package trial

import (
	"math"

	"pivotbench/core/stat"
)

// A Mean is the mean of some marks, or a combination of such means, in metres. Its
// Student-t interval holds the truth with a stated confidence if marks scatter
// normally.
//
// Source: Student, Biometrika 6 (1908) 1.
type Mean struct {
	Mean    float64
	StdErr  float64 // standard error of Mean
	Freedom float64 // degrees of freedom of StdErr
	stat.Interval[float64]
}

// MeanOf returns the mean of at least two values.
func MeanOf(values []float64, confidence float64) Mean {
	mean, sd := meanDeviation(values)
	n := float64(len(values))
	return Mean{Mean: mean, StdErr: sd / math.Sqrt(n), Freedom: n - 1}.within(confidence)
}

// within sets the interval for a confidence.
func (m Mean) within(confidence float64) Mean {
	m.Interval = stat.Around(m.Mean, stat.StudentReach(m.Freedom, confidence)*m.StdErr)
	return m
}

// combine returns a·x + b·y for independent means, each with a scatter of its own.
//
// Source: Welch, Biometrika 34 (1947) 28, for the degrees of freedom.
func combine(a float64, x Mean, b float64, y Mean, confidence float64) Mean {
	vx, vy := a*a*x.StdErr*x.StdErr, b*b*y.StdErr*y.StdErr
	m := Mean{Mean: a*x.Mean + b*y.Mean, StdErr: math.Sqrt(vx + vy), Freedom: x.Freedom + y.Freedom}
	if vx+vy > 0 {
		m.Freedom = (vx + vy) * (vx + vy) / (vx*vx/x.Freedom + vy*vy/y.Freedom)
	}
	return m.within(confidence)
}

// A Comparison is the difference of two means, with the probability P of one at
// least as large, either way, if the true means are equal: Welch's test.
type Comparison struct {
	Mean
	P float64
}

// Compare returns the difference x − y of two means, such as the offsets of two
// cues on the same shot. Two means without any scatter differ with certainty or
// not at all.
func Compare(x, y Mean, confidence float64) Comparison {
	c := Comparison{Mean: combine(1, x, -1, y, confidence)}
	switch {
	case c.Mean.Mean == 0:
		c.P = 1
	case c.StdErr > 0:
		c.P = 2 * stat.StudentTail(c.Freedom, math.Abs(c.Mean.Mean/c.StdErr))
	}
	return c
}

// apart returns the indices of the outliers among values: each value is compared
// with the mean and scatter of the others, and is an outlier when at most one set
// of marks in twenty has one like it by chance.
//
// Source: Cook and Weisberg, Residuals and Influence in Regression (1982), for
// the deleted residual; Bonferroni's bound for there being so many values.
func apart(values []float64) []int {
	const rare = 0.05
	var out []int
	if len(values) < 4 { // the scatter of two others says too little
		return nil
	}
	rest := make([]float64, 0, len(values))
	for i, v := range values {
		rest = append(append(rest[:0], values[:i]...), values[i+1:]...)
		mean, sd := meanDeviation(rest)
		n := float64(len(rest))
		t := math.Abs(v-mean) / (sd * math.Sqrt(1+1/n))
		if v != mean && 2*float64(len(values))*stat.StudentTail(n-1, t) < rare {
			out = append(out, i)
		}
	}
	return out
}

// meanDeviation returns the mean of at least two values and their sample standard
// deviation.
func meanDeviation(values []float64) (mean, sd float64) {
	mean, squares := stat.Spread(values)
	return mean, math.Sqrt(squares / float64(len(values)-1))
}
