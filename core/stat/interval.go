// Package stat is the little statistics that the bench needs: the interval, the
// Normal and Student-t distributions, means, and points spread more evenly than
// chance would.
//
// The incomplete beta function is gonum's. Its statistics packages have all of
// this ready, and bring the whole of its linear algebra into a program that a
// phone has to download.
package stat

// An Interval reaches from From to To, both included. Whoever gives one says
// with what probability it holds the truth.
type Interval[T ~float64] struct{ From, To T }

// Around returns the interval that goes half to either side of mid.
func Around[T ~float64](mid, half T) Interval[T] { return Interval[T]{mid - half, mid + half} }

// Between returns the interval from one value to another, whichever is less.
func Between[T ~float64](a, b T) Interval[T] { return Interval[T]{min(a, b), max(a, b)} }

// Holds reports whether the interval holds v.
func (i Interval[T]) Holds(v T) bool { return i.From <= v && v <= i.To }

// An Estimate is a quantity's median with its 90 % interval.
type Estimate[T ~float64] struct {
	Median T
	Interval[T]
}

// Within reports whether the interval ends within the given share of the median
// on either side.
func (e Estimate[T]) Within(share float64) bool {
	return float64(e.From) >= (1-share)*float64(e.Median) && float64(e.To) <= (1+share)*float64(e.Median)
}
