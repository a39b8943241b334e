//go:build js && wasm

// Command page is the page's program: it owns the model, takes what the user
// does to the controls, the address and the sheet, and writes the readings.
package main

import (
	"syscall/js"

	"pivotbench/wasm/app"
)

var (
	window   = js.Global().Get("window")
	document = js.Global().Get("document")
	root     = document.Get("documentElement")
)

func main() {
	p := &page{model: app.Update(app.Start(), app.First{Link: location()})}
	p.find()
	p.loadLook()
	p.loadKept()
	p.listenControls()
	p.listenButtons()
	p.listenAddress()
	p.listenTable()
	p.listenKept()
	for _, s := range p.sections {
		s.listen()
	}
	p.render()
	root.Get("dataset").Set("state", "live")
	if root.Get("dataset").Get("canvas").Equal(js.ValueOf("ready")) {
		p.canvasReady() // the canvas was quicker, and said so to nobody
	}
	select {} // the callbacks do the rest
}
