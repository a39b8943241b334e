//go:build js && wasm

// Command page is the page's program: it owns the model, takes what the user
// does to the controls, the address and the sheet, and writes the readings.
package main

import (
	"syscall/js"
	"time"

	"pivotbench/core/link"
	"pivotbench/wasm/app"
)

var (
	window   = js.Global().Get("window")
	document = js.Global().Get("document")
	root     = document.Get("documentElement")
)

func main() {
	p := &page{model: app.Start()}
	p.find()
	if p.offers[link.Kind(location())] == nil {
		p.model = app.Update(p.model, app.First{Link: location()})
	}
	p.loadLook()
	p.loadKept()
	p.listenControls()
	p.listenButtons()
	p.keyboard.listen()
	(&voice{page: p}).listen()
	p.listenAddress()
	p.listenTable()
	p.listenKept()
	p.listenCode()
	p.listenWake()
	p.playing = playing{page: p}
	p.playing.listen()
	for _, s := range p.sections {
		s.listen()
	}
	p.renderModel(p.model.Play())
	p.takeOffer()
	root.Get("dataset").Set("state", "live")
	if root.Get("dataset").Get("canvas").Equal(js.ValueOf("ready")) {
		p.canvasReady() // the canvas was quicker, and said so to nobody
	}
	// The readings are shown first: the still stands in for the plain drawing.
	time.AfterFunc(0, func() { p.renderDrawing(p.model.Play()) })
	select {} // the callbacks do the rest
}
