// Package oneshot measures the cost of one whole shot, one hop and a map of hops, on any
// platform.
package oneshot

import (
	"testing"

	"pivotbench/core/hop"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// A Cost is the cost of each.
type Cost struct {
	Ns        float64 // of a shot, in nanoseconds
	Allocs    int64   // of a shot, on the heap
	Hop       float64 // in ns, of the longest hop over the usual contact times
	HopAllocs int64
	Map       float64 // in ns, of the map of hops
}

// Measure repeats each for about a second.
func Measure() Cost {
	scene := scenario.Default()
	s := scene.Shot()
	var res shot.Result
	var c Cost
	c.Ns, c.Allocs = again(func() { shot.Play(&s, &res) })

	steep, _ := scenario.Parse("v=1&side=0.2&elev=40deg&speed=9mph&gate=12in&gap=2in")
	contacts := view.ContactsOf(&steep, &store.Records{})
	s = steep.Shot()
	c.Hop, c.HopAllocs = again(func() { _, _, _ = hop.Pressed(&s, contacts.Range.To) })
	c.Map, _ = again(func() { view.HopColumns(&steep, &contacts) })
	return c
}

func again(do func()) (ns float64, allocs int64) {
	r := testing.Benchmark(func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			do()
		}
	})
	return float64(r.T.Nanoseconds()) / float64(r.N), r.AllocsPerOp()
}
