package lesson

import (
	"errors"
	"math"

	"pivotbench/core/scenario"
	"pivotbench/core/stat"
)

// ErrNoAnswer means that no value of the control meets the goal.
var ErrNoAnswer = errors.New("no value of this control works")

// An Answer is the values of the dragged control that meet the goal, in SI. Best
// meets it exactly, or is the middle of them if none does.
type Answer struct {
	Best float64
	stat.Interval[float64]
}

const (
	pieces   = 400 // into which a control's range is cut to look for answers
	halvings = 60  // enough for any float64 in such a piece
)

// Answer returns what the question asks for, with all else as in the scenario. If
// several intervals meet the goal it is the one nearest to the control's value. An
// interval shorter than a piece is found only if the goal is met exactly in it.
func (q *Question) Answer(s *scenario.Scenario) (Answer, error) {
	k := scenario.Find(q.Key)
	search := search{q, s}
	now, _ := k.Number(s)
	values := search.values(k.Min, k.Max)
	near, best := -1, math.Inf(1)
	for i, v := range values {
		if d := math.Abs(v - now); d < best && search.met(v) {
			near, best = i, d
		}
	}
	if near < 0 {
		return Answer{}, ErrNoAnswer
	}
	low, high := near, near
	for low > 0 && search.met(values[low-1]) {
		low--
	}
	for high < len(values)-1 && search.met(values[high+1]) {
		high++
	}
	a := Answer{Interval: stat.Interval[float64]{From: values[low], To: values[high]}}
	if low > 0 {
		a.From = search.edge(values[low], values[low-1])
	}
	if high < len(values)-1 {
		a.To = search.edge(values[high], values[high+1])
	}
	a.Best = (a.From + a.To) / 2
	for _, v := range values[low : high+1] {
		if math.Abs(search.off(v)) < 1e-9 {
			a.Best = v
		}
	}
	return a, nil
}

// A search looks for values of a question's control, with all else as in a
// scenario.
type search struct {
	q *Question
	s *scenario.Scenario
}

func (f search) try(v float64) (off float64, met bool) {
	at := *f.s
	f.q.Put(&at, v)
	off, met, err := f.q.Try(&at)
	if err != nil {
		return math.NaN(), false
	}
	return off, met
}

func (f search) off(v float64) float64 { off, _ := f.try(v); return off }
func (f search) met(v float64) bool    { _, met := f.try(v); return met }

// values returns the ends of the pieces, and the values that meet the goal exactly.
func (f search) values(low, high float64) []float64 {
	out := []float64{low}
	last, offLast := low, f.off(low)
	for i := 1; i <= pieces; i++ {
		v := low + (high-low)*float64(i)/pieces
		off := f.off(v)
		if offLast*off < 0 {
			out = append(out, f.zero(last, v, offLast))
		}
		out = append(out, v)
		last, offLast = v, off
	}
	return out
}

// zero finds where off changes its sign, by bisection.
func (f search) zero(low, high, offLow float64) float64 {
	for range halvings {
		mid := (low + high) / 2
		if f.off(mid)*offLow > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// edge returns the last value that meets the goal between one that does and one
// that does not, by bisection.
func (f search) edge(in, out float64) float64 {
	for range halvings {
		mid := (in + out) / 2
		if f.met(mid) {
			in = mid
		} else {
			out = mid
		}
	}
	return in
}
