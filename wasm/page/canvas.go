//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/message"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/pointer"
	"pivotbench/wasm/section"
	"pivotbench/wasm/sheet"
)

// A canvas shows the sheet. The program in the frame paints it once it is up. Until then,
// if it never comes, and on paper, a plain drawing takes its place.
type canvas struct {
	host  section.Host
	up    bool           // the program in the frame is drawing
	ready bool           // it will draw when the present drag ends
	sent  *app.Mirror    // what was last sent to it; nil: nothing yet
	layer *pointer.Layer // of the plain drawing
	glass sheet.Glass    // of the plain drawing
}

// listen handles messages of the program in the frame. It ignores messages from elsewhere
// or of another form, which tools send too.
func (c *canvas) listen() {
	dom.Listen(dom.Window, "message", func(e js.Value) {
		frame := dom.ByID("table")
		if frame.IsNull() {
			return
		}
		if o, ok := message.Heard(e, frame.Get("contentWindow")); ok {
			c.hear(o)
		}
	})
	dom.Listen(dom.Window, "resize", func(js.Value) { c.redraw() })
	c.listenPrint()
}

// hear handles a message of the program in the frame.
func (c *canvas) hear(o message.Object) {
	m := c.host.Model()
	_, wants := message.ReadWant(o)
	_, failed := message.ReadFailed(o)
	if wants || failed {
		c.ready = false
	}
	if c.up && (wants || failed) { // it was up, and starts over or has given up
		c.up = false
		dom.Root.Get("dataset").Set("state", "live")
		c.host.Do(app.Drag{Phase: app.DragCancel}) // it will not report the end of the drag any more
		c.redraw()
	}
	if _, ready := message.ReadReady(o); ready {
		if c.ready = m.Dragging && !c.up; !c.ready {
			c.start()
		}
	}
	if d, ok := message.ReadDrag(o); ok && c.up { // a program that has given up may still be under a finger
		c.host.Do(d.Drag)
	}
}

// start hands the drawing over to the program in the frame.
func (c *canvas) start() {
	c.up, c.sent, c.ready = true, nil, false
	dom.Root.Get("dataset").Set("state", "board")
	m := c.host.Model()
	c.send(&m, false)
	keysFrom(dom.ByID("table").Get("contentDocument"))
}

// keysFrom handles keys pressed in the canvas's document, where the browser sends them
// after a click there, as if they were pressed on the page. A frame that failed to load
// has no accessible document.
func keysFrom(canvas js.Value) {
	if !canvas.Truthy() {
		return
	}
	for _, kind := range []string{"keydown", "keyup"} {
		dom.Listen(canvas, kind, func(e js.Value) {
			here := js.Global().Get("KeyboardEvent").New(kind, e) // copies the properties of the event
			if !dom.Document.Get("body").Call("dispatchEvent", here).Bool() {
				e.Call("preventDefault")
			}
		})
	}
}

// send sends the program in the frame what to draw, if it is up and that has changed.
// glide says whether to move there gradually.
func (c *canvas) send(m *app.Model, glide bool) {
	now := m.Mirrored()
	if !c.up || c.sent != nil && now == *c.sent {
		return
	}
	message.Tell(dom.ByID("table").Get("contentWindow"), message.Scene{Mirror: now, Glide: glide}.Object())
	c.sent = &now
}

// draw draws the plain drawing while the program in the frame is not up.
func (c *canvas) draw(m *app.Model) {
	if c.ready && !m.Dragging { // the program came up during a drag of the plain drawing
		c.start()
	}
	if c.up {
		return
	}
	paper := dom.ByID("paper")
	c.glass.Width, c.glass.Height = paper.Get("clientWidth").Float(), paper.Get("clientHeight").Float()
	c.glass.Text, c.glass.Fingers = pointer.Wishes()
	drawn := drawOn(paper, m, &c.glass)
	if c.layer == nil {
		c.layer = pointer.New(paper, c.pulled)
	}
	c.layer.Show(drawn.Handles)
}

func (c *canvas) redraw() {
	m := c.host.Model()
	c.draw(&m)
}

// drawOn draws the shot into the plain drawing's element.
func drawOn(paper js.Value, m *app.Model, glass *sheet.Glass) sheet.Sheet {
	res := m.Play()
	drawn := sheet.Draw(&m.Scene, res, glass.View(m))
	said := phrase.Verdict(&m.Scene, &res.Reading)
	if old := paper.Call("querySelector", "svg"); old.Truthy() {
		old.Set("outerHTML", sheet.SVG(&drawn, said.Head+", "+said.Detail))
	}
	return drawn
}

// pulled handles a drag on the plain drawing.
func (c *canvas) pulled(r pointer.Report) {
	m := c.host.Model()
	if drag, ok := c.glass.Drag(&m, r.ID, r.Phase, r.DX, r.DY, r.Slow); ok {
		c.host.Do(drag)
	}
}
