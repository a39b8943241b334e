//go:build js && wasm

package main

import (
	"math"
	"syscall/js"

	"github.com/hajimehoshi/ebiten/v2"

	"pivotbench/core/margin"
	"pivotbench/wasm/app"
	"pivotbench/wasm/sheet"
	"pivotbench/wasm/touch"
)

// A bench is the model it draws, the sheet that follows from it, and what it
// takes to paint one.
type bench struct {
	model         app.Model
	board         bool
	pull          *sheet.Pull // a handle in hand
	width, height float64     // of the glass, in CSS pixels
	ratio         float64     // device pixels a CSS pixel
	sheet         sheet.Sheet
	stale         bool // the sheet is not that of the model
	layer         *touch.Layer
	painter       painter
	frames        int             // drawn so far
	strokes       *margin.Sampler // for the band, made when first wanted
}

func newBench() *bench {
	return &bench{model: app.Start(), board: !framed(), stale: true}
}

// change takes an event and asks for a frame.
func (b *bench) change(e app.Event) {
	b.model = app.Update(b.model, e)
	b.redraw()
}

func (b *bench) redraw() {
	b.stale = true
	js.Global().Call("pump") // animation frames are held while nothing changes
}

func (b *bench) view() sheet.View {
	v := sheet.View{
		Width: b.width, Height: b.height, Board: b.board,
		Stretch: b.model.Look.Stretch, Left: b.model.Look.Left, Object: b.model.Look.Object,
	}
	if b.model.Look.Band {
		if b.strokes == nil {
			b.strokes = sheet.NewBand()
		}
		v.Sampler = b.strokes
	}
	if b.model.HasEarlier {
		v.Earlier = &b.model.Earlier
	}
	if b.pull != nil {
		v.Extent = b.pull.Extent()
	}
	return v
}

// dragged turns a step of a drag into an event: for the page, which answers
// with a new scene, or on the board for the model here.
func (b *bench) dragged(r touch.Report) {
	if r.Phase == app.DragStart {
		pull := sheet.Take(&b.model.Scene, b.view())
		b.pull = &pull
	}
	if b.pull == nil {
		return
	}
	drag := b.pull.To(r.ID, r.Phase, r.DX, r.DY, r.Slow)
	if r.Phase == app.DragEnd || r.Phase == app.DragCancel {
		b.pull = nil
	}
	if !b.board {
		postDrag(drag)
		b.redraw()
		return
	}
	b.change(drag)
	b.writeAddress()
}

// Layout is ebiten's question for the size of its canvas.
func (b *bench) Layout(int, int) (int, int) { panic("LayoutF is used") }

// LayoutF is the size in device pixels.
func (b *bench) LayoutF(width, height float64) (float64, float64) {
	ratio := js.Global().Get("devicePixelRatio").Float()
	if width != b.width || height != b.height || ratio != b.ratio {
		b.width, b.height, b.ratio, b.stale = width, height, ratio, true
	}
	return math.Ceil(width * ratio), math.Ceil(height * ratio)
}

// Update is ebiten's call before a frame.
func (b *bench) Update() error {
	if !b.stale || b.width < 1 || b.height < 1 {
		return nil
	}
	b.stale = false
	b.sheet = sheet.Draw(&b.model.Scene, b.model.Play(), b.view())
	b.layer.Show(b.sheet.Handles)
	return nil
}

// Draw is ebiten's call for a frame.
func (b *bench) Draw(screen *ebiten.Image) {
	if len(b.sheet.Items) == 0 {
		return
	}
	b.painter.paint(screen, &b.sheet, b.ratio)
	b.frames++
	js.Global().Set("framesDrawn", b.frames) // for the bench, and for whoever wonders why a phone is warm
	if b.frames == 1 {
		tell(map[string]any{"ready": true})
	}
}
