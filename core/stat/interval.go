// Package stat is the little statistics that the bench needs: intervals and
// estimates, the Normal and Student-t distributions, means, and points spread
// more evenly than chance would.
//
// The incomplete beta function is gonum's. Its statistics packages have all of
// this ready, and bring the whole of its linear algebra into a program that a
// phone has to download.
package stat

// An Interval is all values from From to To, both included: those that a standard
// allows, those that meet a goal, or those that hold an unknown with a
// probability that whoever gives the interval states.
type Interval[T ~float64] struct{ From, To T }

// Around returns the interval that goes half to either side of mid.
func Around[T ~float64](mid, half T) Interval[T] { return Interval[T]{mid - half, mid + half} }

// Between returns the interval from one value to another, whichever is less.
func Between[T ~float64](a, b T) Interval[T] { return Interval[T]{min(a, b), max(a, b)} }

// Holds reports whether the interval holds v.
func (i Interval[T]) Holds(v T) bool { return i.From <= v && v <= i.To }

// Covers reports whether all of another interval is in this one.
func (i Interval[T]) Covers(other Interval[T]) bool { return i.From <= other.From && other.To <= i.To }

// Meets reports whether two intervals have a value in common.
func (i Interval[T]) Meets(other Interval[T]) bool {
	return i.From <= other.To && other.From <= i.To
}
