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
func (p *page) listenPrint() {
	dom.Listen(window, "beforeprint", func(js.Value) { p.drawForPaper() })
	dom.Listen(window, "afterprint", func(js.Value) { p.renderDrawing(p.model.Play()) })
	dom.Listen(window.Call("matchMedia", "print"), "change", func(e js.Value) {
		if e.Get("matches").Bool() {
			p.drawForPaper()
		} else {
			p.renderDrawing(p.model.Play())
		}
	})
}

// drawForPaper draws the shot as large as a page has room for.
func (p *page) drawForPaper() {
	glass := sheet.Glass{Width: paperWidth, Height: paperHeight}
	if p.model.Look.Side {
		glass.Height = paperWithSide
	}
	p.drawOn(byID("paper"), p.model.Play(), &glass)
}
