package shot

import "errors"

// ErrUnanswered is the reason an Answer gives when nobody has filled it in.
var ErrUnanswered = errors.New("not computed yet")

// An Answer is a value, or the reason why there is none. The zero Answer has no
// value, since nobody has filled it in.
type Answer[T ~float64 | ~string] struct {
	Value T // meaningful only when Err returns nil
	err   error
	known bool
}

// Answered returns an answer with a value.
func Answered[T ~float64 | ~string](v T) Answer[T] { return Answer[T]{Value: v, known: true} }

// Refused returns an answer without a value, for a reason.
func Refused[T ~float64 | ~string](err error) Answer[T] { return Answer[T]{err: err} }

// answer returns v, or err as the reason why there is none.
func answer[T ~float64 | ~string](v T, err error) Answer[T] {
	if err != nil {
		return Refused[T](err)
	}
	return Answered(v)
}

// Err returns why there is no value, or nil when there is one.
func (a Answer[T]) Err() error {
	switch {
	case a.known:
		return nil
	case a.err == nil:
		return ErrUnanswered
	}
	return a.err
}
