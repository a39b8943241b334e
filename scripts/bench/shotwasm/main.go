//go:build js && wasm

// Command shotwasm measures one shot, one hop and a map of hops in the browser.
package main

import (
	"syscall/js"

	"pivotbench/scripts/bench/oneshot"
)

func main() {
	cost := oneshot.Measure()
	js.Global().Set("cost", map[string]any{
		"ns": cost.Ns, "allocs": cost.Allocs,
		"hop": cost.Hop, "hopAllocs": cost.HopAllocs, "map": cost.Map,
	})
}
