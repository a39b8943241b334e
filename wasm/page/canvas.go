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

// A canvas is the sheet: painted by the program in the frame once that is up, and
// until then, where it never comes, and on paper a plain drawing.
type canvas struct {
	host  section.Host
	up    bool           // the program in the frame draws
	ready bool           // it is to, once the drag under way is over
	sent  *app.Mirror    // what it was sent last; nil: nothing yet
	layer *pointer.Layer // of the plain drawing
	glass sheet.Glass    // the plain drawing
}

// listen takes what the program in the frame says. Messages from elsewhere, or of
// another form, are left alone: tools send them too.
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

// hear takes a message of the program in the frame.
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
		c.host.Do(app.Drag{Phase: app.DragCancel}) // whose end it won't tell any more
		c.redraw()
	}
	if _, ready := message.ReadReady(o); ready {
		if c.ready = m.Dragging && !c.up; !c.ready {
			c.start()
		}
	}
	if d, ok := message.ReadDrag(o); ok && c.up { // one that has given up may still be under a finger
		c.host.Do(d.Drag)
	}
}

// start leaves the drawing to the program in the frame, and tells it what to draw.
func (c *canvas) start() {
	c.up, c.sent, c.ready = true, nil, false
	dom.Root.Get("dataset").Set("state", "board")
	m := c.host.Model()
	c.send(&m, false)
	keysFrom(dom.ByID("table").Get("contentDocument"))
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
			if !dom.Document.Get("body").Call("dispatchEvent", here).Bool() {
				e.Call("preventDefault")
			}
		})
	}
}

// send tells the program in the frame, once it is up, what to draw, when that has
// changed; and whether to glide there from what it draws now.
func (c *canvas) send(m *app.Model, glide bool) {
	now := m.Mirrored()
	if !c.up || c.sent != nil && now == *c.sent {
		return
	}
	message.Tell(dom.ByID("table").Get("contentWindow"), message.Scene{Mirror: now, Glide: glide}.Object())
	c.sent = &now
}

// draw draws the plain drawing, which serves while the program in the frame is not
// up.
func (c *canvas) draw(m *app.Model) {
	if c.ready && !m.Dragging { // it came during a drag of the plain drawing
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

// drawOn puts the shot on the plain drawing's paper.
func drawOn(paper js.Value, m *app.Model, glass *sheet.Glass) sheet.Sheet {
	res := m.Play()
	drawn := sheet.Draw(&m.Scene, res, glass.View(m))
	said := phrase.Verdict(&m.Scene, &res.Reading)
	if old := paper.Call("querySelector", "svg"); old.Truthy() {
		old.Set("outerHTML", sheet.SVG(&drawn, said.Head+", "+said.Detail))
	}
	return drawn
}

// pulled takes a drag on the plain drawing.
func (c *canvas) pulled(r pointer.Report) {
	m := c.host.Model()
	if drag, ok := c.glass.Drag(&m, r.ID, r.Phase, r.DX, r.DY, r.Slow); ok {
		c.host.Do(drag)
	}
}
