//go:build js && wasm

package pointer

import (
	"strconv"
	"strings"
	"syscall/js"
)

// Wishes returns what a sheet needs to know of the device and its user: how many times
// larger than usual text should be, and whether buttons are pressed by fingers.
func Wishes() (text float64, fingers bool) {
	root := js.Global().Get("document").Get("documentElement")
	size := js.Global().Call("getComputedStyle", root).Get("fontSize").String()
	const usual = 16 // pixels
	px, _ := strconv.ParseFloat(strings.TrimSuffix(size, "px"), 64)
	return px / usual, js.Global().Call("matchMedia", "(pointer: coarse)").Get("matches").Bool()
}
