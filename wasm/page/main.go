//go:build js && wasm

// Command page is the page's program: it owns the model, takes what the user
// does to the controls, the address and the sheet, and writes the readings.
package main

import (
	"syscall/js"
	"time"

	"pivotbench/core/link"
	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
)

var (
	window   = js.Global().Get("window")
	document = js.Global().Get("document")
	root     = document.Get("documentElement")
)

// stillServes is how long the still that came with the page stands in for the
// plain drawing of the same shot: by then the canvas is mostly there.
const stillServes = 1500 * time.Millisecond

// afterwards is when the readings are there for the user: what is due at once
// is done before the browser has its turn.
const afterwards = time.Millisecond

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
	p.keypad.listen()
	p.listenAddress()
	p.listenTable()
	p.listenKept()
	p.listenCode()
	p.listenPrint()
	p.listenWake()
	p.playing = playing{page: p}
	p.playing.listen()
	p.sections[p.section].listen()
	p.renderModel(p.model.Play())
	if !p.takeOffer() {
		p.resume()
	}
	root.Get("dataset").Set("state", "live")
	if root.Get("dataset").Get("canvas").Equal(js.ValueOf("ready")) {
		p.canvasReady() // the canvas was quicker, and said so to nobody
	}
	time.AfterFunc(afterwards, func() {
		p.listenSections()
		(&voice{page: p}).listen()
	})
	still := afterwards
	if p.model.Scene == scenario.Default() {
		still = stillServes
	}
	time.AfterFunc(still, func() { p.renderDrawing(p.model.Play()) })
	select {} // the callbacks do the rest
}
