//go:build js && wasm

package pointer

import (
	"strconv"
	"strings"
	"syscall/js"
)

// Wishes are what a sheet minds of the device and of its user: how many times
// larger than usual text is to be, and whether fingers take the buttons.
func Wishes() (text float64, fingers bool) {
	root := js.Global().Get("document").Get("documentElement")
	size := js.Global().Call("getComputedStyle", root).Get("fontSize").String()
	const usual = 16 // pixels
	px, _ := strconv.ParseFloat(strings.TrimSuffix(size, "px"), 64)
	return px / usual, js.Global().Call("matchMedia", "(pointer: coarse)").Get("matches").Bool()
}
