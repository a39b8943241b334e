//go:build js && wasm

package main

import (
	"image/color"
	"math"
	"strconv"
	"strings"
	"syscall/js"

	"pivotbench/wasm/dom"
	"pivotbench/wasm/sheet"
)

// readInks asks the style sheet for the colour of each ink under the present theme, which
// may be one that the user of the device has chosen.
func readInks() map[sheet.Ink]color.RGBA {
	probe := dom.Document.Call("createElement", "span")
	probe.Set("hidden", true)
	dom.Document.Get("body").Call("append", probe)
	probe.Get("style").Call("setProperty", "forced-color-adjust", "none")
	style := dom.Window.Call("getComputedStyle", probe)
	inks := map[sheet.Ink]color.RGBA{}
	for _, ink := range sheet.Inks {
		probe.Get("style").Set("color", "var(--"+string(ink)+")")
		inks[ink] = parseColour(style.Get("color").String())
	}
	probe.Call("remove")
	return inks
}

// followColours redraws when the device changes between light and dark, or starts or
// stops forcing its user's own colours.
func (b *bench) followColours() {
	for _, query := range []string{"(prefers-color-scheme: dark)", "(forced-colors: active)"} {
		dom.Listen(dom.Window.Call("matchMedia", query), "change", func(js.Value) {
			b.painter.inks = nil
			b.redraw()
		})
	}
}

// parseColour reads a computed colour: rgb(29, 92, 140) or, for a mixed one, color(srgb
// 0.1 0.5 1), each also with an alpha: rgba(29, 92, 140, 0.5) and color(srgb 0.1 0.5 1 /
// 0.5). For anything else it returns a grey that is visible on any background.
func parseColour(text string) color.RGBA {
	kind, list, _ := strings.Cut(strings.TrimSuffix(text, ")"), "(")
	full, mixed := 1.0, strings.HasPrefix(list, "srgb ")
	if mixed {
		full, list = 255, strings.TrimPrefix(list, "srgb ")
	}
	parts := strings.FieldsFunc(list, func(r rune) bool { return r == ',' || r == ' ' })
	if len(parts) < 3 || kind != "rgb" && kind != "rgba" && !mixed {
		return color.RGBA{128, 128, 128, 255}
	}
	part := func(i int, full float64) uint8 {
		v, _ := strconv.ParseFloat(parts[i], 64)
		return uint8(math.Round(min(max(v*full, 0), 255)))
	}
	alpha := uint8(255)
	if last := len(parts) - 1; last >= 3 {
		alpha = part(last, 255)
	}
	seen := color.NRGBA{part(0, full), part(1, full), part(2, full), alpha}
	return color.RGBAModel.Convert(seen).(color.RGBA)
}
