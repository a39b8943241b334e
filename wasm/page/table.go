//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/core/shot"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/message"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/pointer"
	"pivotbench/wasm/sheet"
)

// listenTable takes what the canvas says. Messages from elsewhere, or of
// another form, are left alone: tools send them too.
func (p *page) listenTable() {
	dom.Listen(window, "message", func(e js.Value) {
		frame := byID("table")
		if frame.IsNull() {
			return
		}
		o, ok := message.Heard(e, frame.Get("contentWindow"))
		if !ok {
			return
		}
		_, wants := message.ReadWant(o)
		_, failed := message.ReadFailed(o)
		if wants || failed {
			p.ready = false
		}
		if p.canvas && (wants || failed) { // it was up, and starts over or has given up
			p.canvas = false
			root.Get("dataset").Set("state", "live")
			if p.model.Dragging { // whose end it won't tell any more
				p.do(app.Drag{Phase: app.DragCancel})
			}
			p.render()
		}
		if _, ready := message.ReadReady(o); ready {
			if p.ready = p.model.Dragging && !p.canvas; !p.ready {
				p.canvasReady()
			}
		}
		if d, ok := message.ReadDrag(o); ok && p.canvas { // one that has given up may still be under a finger
			p.drag(d.Drag)
		}
	})
	dom.Listen(window, "resize", func(js.Value) {
		p.renderDrawing(p.model.Play())
	})
}

// canvasReady leaves the drawing to the canvas, and tells it what to draw.
func (p *page) canvasReady() {
	p.canvas, p.sent = true, nil
	root.Get("dataset").Set("state", "board")
	p.sendScene()
	keysFrom(byID("table").Get("contentDocument"))
}

// keysFrom answers the keys pressed in the canvas's document, where the browser
// sends them after a click there, as if they were pressed on the page. A frame
// that failed to load has no document for us.
func keysFrom(canvas js.Value) {
	if !canvas.Truthy() {
		return
	}
	for _, kind := range []string{"keydown", "keyup"} {
		dom.Listen(canvas, kind, func(e js.Value) {
			here := js.Global().Get("KeyboardEvent").New(kind, e) // which has the properties that it is made of
			if !document.Get("body").Call("dispatchEvent", here).Bool() {
				e.Call("preventDefault")
			}
		})
	}
}

func (p *page) drag(d app.Drag) {
	p.do(d)
	if p.model.Dragging {
		return
	}
	p.pushAddress()
	if p.ready { // it came during a drag of the plain drawing
		p.ready = false
		p.canvasReady()
	}
}

// sendScene tells the canvas, once there is one, what to draw, when that has
// changed.
func (p *page) sendScene() {
	now := p.model.Mirrored()
	if !p.canvas || p.sent != nil && now == *p.sent {
		return
	}
	message.Tell(byID("table").Get("contentWindow"), message.Scene{Mirror: now, Glide: p.gliding}.Object())
	p.sent, p.gliding = &now, false
}

// renderDrawing draws the plain drawing, which serves until the canvas is up
// and where it never comes.
func (p *page) renderDrawing(res *shot.Result) {
	if p.canvas {
		return
	}
	paper := byID("paper")
	p.glass.Width, p.glass.Height = paper.Get("clientWidth").Float(), paper.Get("clientHeight").Float()
	p.glass.Text, p.glass.Fingers = pointer.Wishes()
	sh := p.drawOn(paper, res, &p.glass)
	if p.layer == nil {
		p.layer = pointer.New(paper, p.pulled)
	}
	p.layer.Show(sh.Handles)
}

// drawOn puts the shot on the plain drawing's paper.
func (p *page) drawOn(paper js.Value, res *shot.Result, glass *sheet.Glass) sheet.Sheet {
	sh := sheet.Draw(&p.model.Scene, res, glass.View(&p.model))
	said := phrase.Verdict(&p.model.Scene, &res.Reading)
	if old := paper.Call("querySelector", "svg"); old.Truthy() {
		old.Set("outerHTML", sheet.SVG(&sh, said.Head+", "+said.Detail))
	}
	return sh
}

// pulled takes a drag on the plain drawing.
func (p *page) pulled(r pointer.Report) {
	if drag, ok := p.glass.Drag(&p.model, r.ID, r.Phase, r.DX, r.DY, r.Slow); ok {
		p.drag(drag)
	}
}
