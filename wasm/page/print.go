//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/wasm/dom"
	"pivotbench/wasm/sheet"
)

// The size of the drawing on paper, in CSS pixels: the width of a page in either of the
// common formats, and more height if the view from the side is below it.
const (
	paperWidth    = 700
	paperHeight   = 620
	paperWithSide = 860
)

// listenPrint prints what the screen shows. The contents of the canvas cannot be printed,
// as they are gone once they are shown. So the plain drawing is drawn again just before
// printing, with the present shot, moment and marks. Some browsers announce printing by
// an event, some by the media query.
func (c *canvas) listenPrint() {
	dom.Listen(dom.Window, "beforeprint", func(js.Value) { c.drawForPaper() })
	dom.Listen(dom.Window, "afterprint", func(js.Value) { c.redraw() })
	dom.Listen(dom.Window.Call("matchMedia", "print"), "change", func(e js.Value) {
		if e.Get("matches").Bool() {
			c.drawForPaper()
		} else {
			c.redraw()
		}
	})
}

// drawForPaper draws the shot as large as a page allows.
func (c *canvas) drawForPaper() {
	m := c.host.Model()
	glass := sheet.Glass{Width: paperWidth, Height: paperHeight}
	if m.Look.Side {
		glass.Height = paperWithSide
	}
	drawOn(dom.ByID("paper"), &m, &glass)
}
