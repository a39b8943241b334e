//go:build js && wasm

// Command shotwasm measures one shot, one hop, a map of hops and the strokes of a
// sitting in the browser.
package main

import (
	"syscall/js"

	"pivotbench/scripts/bench/oneshot"
)

func main() {
	cost, sitting := oneshot.Measure(), oneshot.MeasureSitting()
	js.Global().Set("cost", map[string]any{
		"ns": cost.Ns, "allocs": cost.Allocs,
		"hop": cost.Hop, "hopAllocs": cost.HopAllocs, "map": cost.Map,
		"update": sitting.Update, "slowest": sitting.Slowest, "step": sitting.Step, "next": sitting.Next,
	})
}
