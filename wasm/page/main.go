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
	p.render()
	root.Get("dataset").Set("state", "live")
	if root.Get("dataset").Get("canvas").Equal(js.ValueOf("ready")) {
		p.canvasReady() // the canvas was quicker, and said so to nobody
	}
	select {} // the callbacks do the rest
}

// listen adds an event listener for good.
func listen(target js.Value, name string, f func(event js.Value)) {
	target.Call("addEventListener", name, js.FuncOf(func(_ js.Value, args []js.Value) any {
		f(args[0])
		return nil
	}))
}

// each calls f with every element a selector finds.
func each(selector string, f func(js.Value)) {
	list := document.Call("querySelectorAll", selector)
	for i := range list.Length() {
		f(list.Index(i))
	}
}

func byID(id string) js.Value { return document.Call("getElementById", id) }
