// Package oneshot measures what one whole shot costs, wherever it is compiled for.
package oneshot

import (
	"testing"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
)

// A Cost is what one shot takes.
type Cost struct {
	Ns     float64 // nanoseconds
	Allocs int64   // on the heap
}

// Measure plays the default scenario again and again for about a second.
func Measure() Cost {
	scene := scenario.Default()
	s := scene.Shot()
	var res shot.Result
	r := testing.Benchmark(func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			shot.Play(&s, &res)
		}
	})
	return Cost{Ns: float64(r.T.Nanoseconds()) / float64(r.N), Allocs: r.AllocsPerOp()}
}
