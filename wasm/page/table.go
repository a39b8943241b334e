//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/core/shot"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/message"
	"pivotbench/wasm/sheet"
	"pivotbench/wasm/touch"
	"pivotbench/wasm/words"
)

// listenTable takes what the canvas says. Messages from elsewhere, or of
// another form, are left alone: tools send them too.
func (p *page) listenTable() {
	dom.Listen(window, "message", func(e js.Value) {
		data, frame := e.Get("data"), byID("table")
		if frame.IsNull() || !message.From(e, frame.Get("contentWindow")) || message.Type(data) != js.TypeObject {
			return
		}
		if data.Get("ready").Equal(js.ValueOf(true)) {
			p.canvasReady()
		}
		// One that was up starts over, or has given up.
		if p.canvas && (message.Type(data.Get("want")) == js.TypeString || message.Type(data.Get("failed")) == js.TypeString) {
			p.canvas = false
			root.Get("dataset").Set("state", "live")
			if p.model.Dragging { // whose end it won't tell any more
				p.do(app.Drag{Phase: app.DragCancel})
			}
			p.render()
		}
		if drag := data.Get("drag"); message.Type(drag) == js.TypeObject {
			p.dragged(drag)
		}
	})
	dom.Listen(window, "resize", func(js.Value) {
		p.renderDrawing(p.model.Play())
	})
}

// canvasReady leaves the drawing to the canvas, and tells it what to draw.
func (p *page) canvasReady() {
	p.canvas = true
	root.Get("dataset").Set("state", "board")
	p.sent = sent{}
	p.sendScene()
}

// mostSets is more than the keys one handle moves.
const mostSets = 8

// dragged takes a drag the canvas reports.
func (p *page) dragged(v js.Value) {
	phase, ok := message.Text(v.Get("phase"))
	if !ok {
		return
	}
	d := app.Drag{Phase: app.Phase(phase)}
	if set := v.Get("set"); message.Type(set) == js.TypeObject {
		keys := js.Global().Get("Object").Call("keys", set)
		for i := range min(keys.Length(), mostSets) {
			key, read := message.Text(keys.Index(i))
			text, given := message.Text(set.Get(key))
			if read && given {
				d.Sets = append(d.Sets, app.Setting{Key: key, Text: text})
			}
		}
	}
	p.drag(d)
}

func (p *page) drag(d app.Drag) {
	p.do(d)
	if !p.model.Dragging {
		p.pushAddress()
	}
}

// sendScene tells the canvas, once there is one, what to draw, when that has
// changed.
func (p *page) sendScene() {
	if !p.canvas {
		return
	}
	look, earlier := p.model.Look, ""
	var moment any // null: the shot at rest
	if p.model.Clock.On {
		moment = float64(p.model.Clock.Time)
	}
	if p.model.HasEarlier {
		earlier = p.model.Earlier.Format()
	}
	now := sent{p.model.Scene.Format(), earlier, look, moment}
	if now == p.sent {
		return
	}
	p.sent = now
	p.seq++
	message.Tell(byID("table").Get("contentWindow"), map[string]any{
		"scene": now.scene,
		"look": map[string]any{
			"stretch": look.Stretch, "theme": look.Theme, "left": look.Left,
			"object": look.Object, "band": look.Band, "side": look.Side, "earlier": earlier,
		},
		"seq":   p.seq,
		"glide": p.gliding,
		"time":  now.moment,
	})
	p.gliding = false
}

// A sent is what the canvas shows.
type sent struct {
	scene, earlier string
	look           app.Look
	moment         any
}

// renderDrawing draws the plain drawing, which serves until the canvas is up
// and where it never comes.
func (p *page) renderDrawing(res *shot.Result) {
	if p.canvas {
		return
	}
	paper := byID("paper")
	p.glass.Width, p.glass.Height = paper.Get("clientWidth").Float(), paper.Get("clientHeight").Float()
	p.glass.Text, p.glass.Fingers = touch.Wishes()
	sh := sheet.Draw(&p.model.Scene, res, p.glass.View(&p.model))
	said := words.Verdict(&p.model.Scene, &res.Reading)
	if old := paper.Call("querySelector", "svg"); old.Truthy() {
		old.Set("outerHTML", sheet.SVG(&sh, said.Head+", "+said.Detail))
	}
	if p.layer == nil {
		p.layer = touch.New(paper, p.pulled)
	}
	p.layer.Show(sh.Handles)
}

// pulled takes a drag on the plain drawing.
func (p *page) pulled(r touch.Report) {
	if drag, ok := p.glass.Drag(&p.model, r.ID, r.Phase, r.DX, r.DY, r.Slow); ok {
		p.drag(drag)
	}
}
