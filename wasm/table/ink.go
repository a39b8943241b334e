//go:build js && wasm

package main

import (
	"image/color"
	"strconv"
	"strings"
	"syscall/js"

	"pivotbench/wasm/sheet"
)

// readInks asks the style sheet what each ink looks like under the theme of
// the moment.
func readInks() map[sheet.Ink]color.RGBA {
	window := js.Global().Get("window")
	style := window.Call("getComputedStyle", js.Global().Get("document").Get("documentElement"))
	inks := map[sheet.Ink]color.RGBA{}
	for _, ink := range sheet.Inks {
		text := style.Call("getPropertyValue", "--"+string(ink)).String()
		inks[ink] = parseHex(strings.TrimSpace(text))
	}
	return inks
}

// followColours draws anew when the device goes from light to dark, or back.
func (b *bench) followColours() {
	js.Global().Call("matchMedia", "(prefers-color-scheme: dark)").Call("addEventListener", "change", js.FuncOf(func(js.Value, []js.Value) any {
		b.painter.inks = nil
		b.redraw()
		return nil
	}))
}

// parseHex reads #rrggbb; anything else is a grey that shows on any ground.
func parseHex(text string) color.RGBA {
	n, err := strconv.ParseUint(strings.TrimPrefix(text, "#"), 16, 32)
	if err != nil || len(text) != 7 {
		return color.RGBA{128, 128, 128, 255}
	}
	return color.RGBA{uint8(n >> 16), uint8(n >> 8), uint8(n), 255}
}
