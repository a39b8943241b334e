//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/wasm/dom"
	"pivotbench/wasm/sheet"
)

// The size of the drawing on paper, in CSS pixels: as wide as a page in either
// of the common formats, and higher where the view from the side is under it.
const (
	paperWidth    = 700
	paperHeight   = 620
	paperWithSide = 860
)

// listenPrint has paper show what the screen does. What the canvas shows can't
// be printed, as it is gone once it is shown; so the plain drawing is made
// again just before, for the shot, the moment and the marks there are now.
// Some browsers tell of it by an event, some by the media query.
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

// drawForPaper draws the shot as large as a page has room for.
func (c *canvas) drawForPaper() {
	m := c.host.Model()
	glass := sheet.Glass{Width: paperWidth, Height: paperHeight}
	if m.Look.Side {
		glass.Height = paperWithSide
	}
	drawOn(dom.ByID("paper"), &m, &glass)
}
