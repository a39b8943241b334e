//go:build js && wasm

package main

import (
	"strconv"
	"syscall/js"

	"pivotbench/core/shot"
	"pivotbench/wasm/app"
	"pivotbench/wasm/sheet"
	"pivotbench/wasm/touch"
)

// listenTable takes what the canvas says. Messages from elsewhere, or of
// another form, are left alone: tools send them too.
func (p *page) listenTable() {
	frame := byID("table")
	listen(window, "message", func(e js.Value) {
		data := e.Get("data")
		if !e.Get("source").Equal(frame.Get("contentWindow")) || data.Type() != js.TypeObject {
			return
		}
		if data.Get("ready").Equal(js.ValueOf(true)) {
			p.canvas = true
			root.Get("dataset").Set("state", "board")
			p.sent = ""
			p.sendScene()
		}
		if data.Get("want").Type() == js.TypeString || data.Get("failed").Type() == js.TypeString {
			p.canvas = false
			root.Get("dataset").Set("state", "live")
			p.render()
		}
		if drag := data.Get("drag"); drag.Type() == js.TypeObject {
			p.dragged(drag)
		}
	})
	listen(window, "resize", func(js.Value) {
		if !p.canvas {
			p.renderPaper(p.model.Play())
		}
	})
}

// dragged takes a drag the canvas reports.
func (p *page) dragged(v js.Value) {
	phase := v.Get("phase")
	if phase.Type() != js.TypeString {
		return
	}
	d := app.Drag{Phase: app.Phase(phase.String())}
	if set := v.Get("set"); set.Type() == js.TypeObject {
		keys := js.Global().Get("Object").Call("keys", set)
		for i := range keys.Length() {
			key := keys.Index(i).String()
			if text := set.Get(key); text.Type() == js.TypeString {
				d.Sets = append(d.Sets, app.Setting{Key: key, Text: text.String()})
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

// sendScene tells the canvas what to draw, when that has changed.
func (p *page) sendScene() {
	look := p.model.Look
	text := p.model.Scene.Format()
	if now := text + look.Theme + strconv.Itoa(look.Stretch) + strconv.FormatBool(look.Left); now == p.sent {
		return
	} else {
		p.sent = now
	}
	p.seq++
	byID("table").Get("contentWindow").Call("postMessage", map[string]any{
		"scene": text,
		"look":  map[string]any{"stretch": look.Stretch, "theme": look.Theme, "left": look.Left},
		"seq":   p.seq,
	}, window.Get("location").Get("origin"))
}

// renderPaper draws the plain drawing, which serves until the canvas is up
// and where it never comes.
func (p *page) renderPaper(res *shot.Result) {
	paper := byID("paper")
	sh := sheet.Draw(&p.model.Scene, res, p.view())
	words := app.Verdict(&p.model.Scene, &res.Reading)
	if old := paper.Call("querySelector", "svg"); old.Truthy() {
		old.Set("outerHTML", sheet.SVG(&sh, words.Head+", "+words.Detail))
	}
	if p.layer == nil {
		p.layer = touch.New(paper, p.pulled)
	}
	p.layer.Show(sh.Handles)
}

func (p *page) view() sheet.View {
	paper := byID("paper")
	v := sheet.View{
		Width: paper.Get("clientWidth").Float(), Height: paper.Get("clientHeight").Float(),
		Stretch: p.model.Look.Stretch, Left: p.model.Look.Left,
	}
	if p.pull != nil {
		v.Extent = p.pull.Extent()
	}
	return v
}

// pulled takes a drag on the plain drawing.
func (p *page) pulled(r touch.Report) {
	if r.Phase == app.DragStart {
		pull := sheet.Take(&p.model.Scene, p.view())
		p.pull = &pull
	}
	if p.pull == nil {
		return
	}
	drag := p.pull.To(r.ID, r.Phase, r.DX, r.DY, r.Slow)
	if r.Phase == app.DragEnd || r.Phase == app.DragCancel {
		p.pull = nil
	}
	p.drag(drag)
}
