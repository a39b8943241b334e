//go:build js && wasm

package main

import (
	"math"
	"strconv"
	"syscall/js"

	"github.com/hajimehoshi/ebiten/v2"

	"pivotbench/wasm/sheet"
)

// A lettering is a text as it is drawn: in white, tinted when painted.
type lettering struct {
	words string
	size  float64 // device pixels
	bold  bool
}

// A word is a drawn text. The browser draws it, in the device's own font, so
// a name in any script shows and the program carries no font.
type word struct {
	image    *ebiten.Image
	width    float64 // advance, device pixels
	baseline float64 // from the image's top
	used     bool    // since the last frame
}

// pad is room around a text for what reaches beyond its box.
const pad = 2

// scratch is where the browser draws them. It only grows: a canvas that changes
// its size begins anew.
var scratch struct {
	canvas, ctx   js.Value
	width, height int
	font          string
}

// scratchFor is the scratch canvas's context, at least so large.
func scratchFor(width, height int) js.Value {
	s := &scratch
	if s.canvas.IsUndefined() {
		s.canvas = js.Global().Get("document").Call("createElement", "canvas")
		s.ctx = s.canvas.Call("getContext", "2d", map[string]any{"willReadFrequently": true})
	}
	if width > s.width || height > s.height {
		s.width, s.height = max(width, s.width), max(height, s.height)
		s.canvas.Set("width", s.width)
		s.canvas.Set("height", s.height)
		s.ctx.Set("fillStyle", "#fff")
		s.font = "" // a resized canvas forgets it
	}
	return s.ctx
}

// setFont sets the scratch canvas's font, which the browser has to parse.
func setFont(font string) {
	if scratch.font != font {
		scratch.ctx.Set("font", font)
		scratch.font = font
	}
}

// draw has the browser draw the text on a scratch canvas.
func (l lettering) draw() *word {
	ctx := scratchFor(512, 64)
	font := strconv.FormatFloat(l.size, 'f', 1, 64) + "px system-ui, sans-serif"
	if l.bold {
		font = "bold " + font
	}
	setFont(font)
	width := ctx.Call("measureText", l.words).Get("width").Float()
	up := math.Ceil(l.size*1.05) + pad
	w, h := int(math.Ceil(width))+2*pad, int(up+math.Ceil(l.size*0.35))+pad
	scratchFor(w, h)
	setFont(font)
	ctx.Call("clearRect", 0, 0, w, h)
	ctx.Call("fillText", l.words, pad, up)
	data := ctx.Call("getImageData", 0, 0, w, h).Get("data")
	pix := make([]byte, 4*w*h)
	js.CopyBytesToGo(pix, data)
	for i := 0; i < len(pix); i += 4 { // white with coverage in alpha; ebiten wants it premultiplied
		a := pix[i+3]
		pix[i], pix[i+1], pix[i+2] = a, a, a
	}
	image := ebiten.NewImage(w, h)
	image.WritePixels(pix)
	return &word{image: image, width: width, baseline: up}
}

func (p *painter) text(screen *ebiten.Image, t sheet.Text) {
	l := lettering{t.Words, math.Round(t.Size * float64(p.ratio)), t.Bold}
	w, ok := p.lettered[l]
	if !ok {
		w = l.draw()
		p.lettered[l] = w
	}
	w.used = true
	x := -pad - map[sheet.Anchor]float64{sheet.FromStart: 0, sheet.Middle: w.width / 2, sheet.ToEnd: w.width}[t.Anchor]
	var op ebiten.DrawImageOptions
	op.GeoM.Translate(x, -w.baseline)
	if t.Turned {
		op.GeoM.Rotate(-math.Pi / 2)
	}
	op.GeoM.Translate(math.Round(t.At.X*float64(p.ratio)), math.Round(t.At.Y*float64(p.ratio)))
	op.ColorScale.ScaleWithColor(p.inks[t.Ink])
	screen.DrawImage(w.image, &op)
}

// forget frees the texts that the last frame had no use for: while a value is
// dragged every frame has new ones.
func (p *painter) forget() {
	for l, w := range p.lettered {
		if !w.used {
			w.image.Deallocate()
			delete(p.lettered, l)
		}
		w.used = false
	}
}
