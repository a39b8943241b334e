package stat

// An Estimate is a quantity's median with its 90 % interval.
type Estimate[T ~float64] struct {
	Median T
	Interval[T]
}

// NormalEstimate returns the estimate of a Normal quantity.
func NormalEstimate[T ~float64](mean, sd T) Estimate[T] {
	return Estimate[T]{mean, Around(mean, T(Reach90)*sd)}
}

// Within reports whether the interval ends within the given share of the median
// on either side.
func (e Estimate[T]) Within(share float64) bool {
	return float64(e.From) >= (1-share)*float64(e.Median) && float64(e.To) <= (1+share)*float64(e.Median)
}

// Transform returns the estimate of f of a quantity. f must rise or fall
// throughout: quantiles go through such a function as they are.
func Transform[T, U ~float64](e Estimate[T], f func(T) U) Estimate[U] {
	return Estimate[U]{f(e.Median), Between(f(e.From), f(e.To))}
}

// A Summary is an estimate that has its 50 % interval too.
type Summary[T ~float64] struct {
	Estimate[T]
	Half Interval[T]
}

// Summarize reads a summary off the quantiles of a distribution. They may be
// those of a function of it that falls throughout.
func Summarize[T ~float64](quantile func(p float64) T) Summary[T] {
	return Summary[T]{
		Estimate[T]{quantile(0.5), Between(quantile(0.05), quantile(0.95))},
		Between(quantile(0.25), quantile(0.75)),
	}
}

// HistogramQuantile returns where in a histogram a share p of the weight lies
// below, counted in bins from the lower edge of the first. The weights add up to
// one, and the weight of a bin is spread evenly over it.
func HistogramQuantile(weight []float64, p float64) float64 {
	sum := 0.0
	for i, w := range weight {
		if sum+w >= p && w > 0 {
			return float64(i) + (p-sum)/w
		}
		sum += w
	}
	return float64(len(weight))
}
