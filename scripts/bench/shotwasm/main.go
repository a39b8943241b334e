//go:build js && wasm

// Command shotwasm measures one shot in the browser.
package main

import (
	"syscall/js"

	"pivotbench/scripts/bench/oneshot"
)

func main() {
	cost := oneshot.Measure()
	js.Global().Set("cost", map[string]any{"ns": cost.Ns, "allocs": cost.Allocs})
}
