//go:build js && wasm

package main

import (
	"time"

	"github.com/hajimehoshi/ebiten/v2"

	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/message"
	"pivotbench/wasm/pointer"
	"pivotbench/wasm/sheet"
)

// A bench is the model that is drawn, the sheet made from it, and what is needed to paint
// it.
type bench struct {
	model   app.Model
	glass   sheet.Glass
	ratio   float64 // device pixels per CSS pixel
	sheet   sheet.Sheet
	stale   bool   // the sheet does not show the present model
	glide   *glide // nil when the sheet is not moving
	talk    *talk  // of the lesson on the board; nil in a frame of the page
	play    *play  // of the board's shot; nil in a frame of the page
	layer   *pointer.Layer
	painter painter
	resting *time.Timer // runs until the board's shot is spoken
	frames  int         // number of frames drawn
}

func newBench() *bench {
	return &bench{model: app.Start(), glass: sheet.Glass{Board: !framed()}, stale: true}
}

func (b *bench) redraw() {
	b.stale = true
	dom.Window.Call("pump") // resumes the animation frames, which are held while nothing changes
}

// dragged turns a step of a drag into an event: for the page, which answers with a new
// scene, or, on the board, for the model here.
func (b *bench) dragged(r pointer.Report) {
	drag, ok := b.glass.Drag(&b.model, r.ID, r.Phase, r.DX, r.DY, r.Slow)
	switch {
	case !ok:
	case b.glass.Board:
		b.do(drag)
	default:
		b.glide = nil // the handle is where the finger took it
		tell(message.Drag{Drag: drag}.Object())
		b.redraw()
	}
}

// Layout is required by ebiten but not called, since there is LayoutF.
func (b *bench) Layout(int, int) (int, int) { panic("LayoutF is used") }

// LayoutF reads the size of the frame. It returns the size of the picture that ebiten
// keeps between Draw and the screen, which is not needed, so it is the smallest that
// ebiten allows.
func (b *bench) LayoutF(width, height float64) (float64, float64) {
	ratio := dom.Window.Get("devicePixelRatio").Float()
	if b.talk != nil {
		height -= b.talk.strip
	}
	if width != b.glass.Width || height != b.glass.Height || ratio != b.ratio {
		b.glass.Width, b.glass.Height, b.ratio, b.stale = width, height, ratio, true
		b.glass.Text, b.glass.Fingers = pointer.Wishes()
	}
	return 1, 1
}

// Update is called by ebiten before each frame.
func (b *bench) Update() error {
	if !b.stale || b.glass.Width < 1 || b.glass.Height < 1 {
		return nil
	}
	b.stale = false
	if b.play != nil {
		b.play.move()
	}
	m, view := b.model, b.glass.View(&b.model)
	if b.glide != nil {
		m.Scene, view.Extent = b.onSheet()
		if b.glide.part() == 1 {
			b.glide = nil
		}
		b.redraw() // until the glide arrives, and once more then
	}
	b.sheet = sheet.Draw(&m.Scene, m.Play(), view)
	b.layer.Show(b.sheet.Handles)
	if b.play != nil {
		b.play.render()
		b.speakSoon()
	}
	return nil
}

// Draw is called by ebiten for the intermediate picture, which stays empty.
func (b *bench) Draw(*ebiten.Image) {}

// DrawFinalScreen is called by ebiten for each frame. Painting straight on the screen
// takes half as long as Draw: nothing is copied, and the browser smooths the edges.
func (b *bench) DrawFinalScreen(screen ebiten.FinalScreen, _ *ebiten.Image, _ ebiten.GeoM) {
	if len(b.sheet.Items) == 0 {
		return
	}
	b.painter.paint(screen, &b.sheet, b.ratio)
	b.frames++
	dom.Window.Set("framesDrawn", b.frames) // for scripts/bench, and to find out why a phone is warm
	if b.frames == 1 {
		dom.Root.Get("dataset").Set("state", "board")
		tell(message.Ready{}.Object())
	}
}
