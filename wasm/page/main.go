//go:build js && wasm

// Command page is the program of the page. It owns the model, handles what the user does
// to the controls, the address and the sheet, and writes the readings.
package main

import (
	"time"

	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/section"
)

// stillServes is how long the static picture that came with the page stands in for the
// plain drawing of the same shot. The canvas is usually ready by then.
const stillServes = 1500 * time.Millisecond

// afterwards is the delay until the readings are visible to the user: work that is due at
// once runs before the browser paints.
const afterwards = time.Millisecond

func main() {
	p := &page{model: app.Start(), sections: section.All()}
	p.canvas.host = p
	p.keeper.Storage, p.keeper.Wrote = device.Local, p.askToKeep
	p.parts = []section.Part{
		&section.Readings{}, &p.controls, section.Notices{}, &section.Bar{}, section.Links{},
		&section.Records{Unread: p.keeper.Lost}, &p.play, &section.Start{}, section.Example{},
	}
	brings := app.Brings(device.Fragment())
	p.take(loadLook())
	if brings {
		p.take(app.First{})
	} else {
		p.take(app.First{Link: device.Fragment()})
	}
	p.take(app.Clocked{When: device.Moment()})
	p.take(p.keeper.Load())
	dom.FollowFocus()
	dom.OfferKeys()
	dom.AnswerClicks()
	for _, part := range p.parts {
		part.Listen(p)
	}
	p.sections[app.Sections[0]].Listen(p)
	p.listenAddress()
	p.listenKept()
	p.listenScreen()
	p.listenExample()
	p.canvas.listen()
	start := p.model
	p.show(&start)
	if device.Fragment() == "" && p.model.Settled != scenario.Default() {
		device.Replace(p.model.Settled.Format()) // the user's own gear, which a copied address has to name
	}
	if brings {
		p.bring()
	} else {
		p.resume()
	}
	dom.Root.Get("dataset").Set("state", "live")
	if dom.Data(dom.Root, "canvas") == "ready" {
		p.canvas.start() // the canvas was ready before anybody listened
	}
	time.AfterFunc(afterwards, func() {
		p.hearAll()
		dom.SpeakChanges(func() bool { return p.model.InGesture() })
	})
	still := afterwards
	if p.model.Scene == scenario.Default() {
		still = stillServes
	}
	time.AfterFunc(still, func() { p.canvas.draw(&p.model) })
	select {} // the callbacks do the rest
}
