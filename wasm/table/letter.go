//go:build js && wasm

package main

import (
	"image"
	"math"
	"strconv"
	"syscall/js"

	"github.com/hajimehoshi/ebiten/v2"

	"pivotbench/wasm/dom"
	"pivotbench/wasm/sheet"
)

// A lettering is a text with its type, drawn in white and tinted when painted.
type lettering struct {
	words string
	size  float64 // device pixels
	bold  bool
}

// A word is a drawn text. The browser draws it in the device's own font, so a name in any
// script is shown, and the program contains no font.
type word struct {
	image    *ebiten.Image // part of its tray's image
	width    float64       // advance width in device pixels
	baseline float64       // from the top of the image
	tray     *tray
	used     bool // drawn since the last frame
}

// A tray is the image of the words that were new in one frame. Reading the pixels back
// from the browser takes longer than drawing, so it is done once a frame.
type tray struct {
	image *ebiten.Image
	words int // number of words still in use
}

// pad is the margin around a text, in device pixels, for parts of letters outside its
// box.
const pad = 2

// scratch is the canvas on which the browser draws texts. It only grows, since resizing a
// canvas resets it.
var scratch struct {
	canvas, ctx   js.Value
	width, height int
	font          string
}

// scratchFor returns the context of the scratch canvas, which is at least so large.
func scratchFor(width, height int) js.Value {
	s := &scratch
	if s.canvas.IsUndefined() {
		s.canvas = dom.Document.Call("createElement", "canvas")
		s.ctx = s.canvas.Call("getContext", "2d", map[string]any{"willReadFrequently": true})
	}
	if width > s.width || height > s.height {
		s.width, s.height = max(width, s.width), max(height, s.height)
		s.canvas.Set("width", s.width)
		s.canvas.Set("height", s.height)
		s.ctx.Set("fillStyle", "#fff")
		s.font = "" // a resized canvas loses its font
	}
	return s.ctx
}

// setFont sets the font of the scratch canvas, which the browser has to parse.
func (l lettering) setFont() {
	font := strconv.FormatFloat(l.size, 'f', 1, 64) + "px system-ui, sans-serif"
	if l.bold {
		font = "bold " + font
	}
	if scratch.font != font {
		scratch.ctx.Set("font", font)
		scratch.font = font
	}
}

// shelf is the width of a tray in device pixels, unless one word is wider.
const shelf = 1024

// draw makes the browser draw texts, in rows on the scratch canvas.
func draw(texts []lettering) []*word {
	ctx := scratchFor(shelf, 256)
	drawn := make([]*word, len(texts))
	boxes := make([]image.Rectangle, len(texts))
	var x, y, row, wide int
	for i, l := range texts {
		l.setFont()
		w := &word{width: ctx.Call("measureText", l.words).Get("width").Float()}
		w.baseline = math.Ceil(l.size*1.05) + pad
		width, height := int(math.Ceil(w.width))+2*pad, int(w.baseline+math.Ceil(l.size*0.35))+pad
		if x > 0 && x+width > shelf {
			x, y, row = 0, y+row, 0
		}
		boxes[i] = image.Rect(x, y, x+width, y+height)
		x, row = x+width, max(row, height)
		wide = max(wide, x)
		drawn[i] = w
	}
	high := y + row
	scratchFor(wide, high)
	ctx.Call("clearRect", 0, 0, wide, high)
	for i, l := range texts {
		l.setFont()
		ctx.Call("fillText", l.words, boxes[i].Min.X+pad, float64(boxes[i].Min.Y)+drawn[i].baseline)
	}
	t := &tray{ebiten.NewImage(wide, high), len(texts)}
	t.image.WritePixels(whites(ctx, wide, high))
	for i, w := range drawn {
		w.tray = t
		w.image = t.image.SubImage(boxes[i]).(*ebiten.Image)
	}
	return drawn
}

// whites returns the pixels of the scratch canvas in ebiten's form: white with the
// coverage as alpha, premultiplied.
func whites(ctx js.Value, width, height int) []byte {
	pix := make([]byte, 4*width*height)
	js.CopyBytesToGo(pix, ctx.Call("getImageData", 0, 0, width, height).Get("data"))
	for i := 0; i < len(pix); i += 4 {
		a := pix[i+3]
		pix[i], pix[i+1], pix[i+2] = a, a, a
	}
	return pix
}

func (p *painter) lettering(t sheet.Text) lettering {
	return lettering{t.Words, math.Round(t.Size * float64(p.ratio)), t.Bold}
}

// letter draws the texts that are not drawn yet.
func (p *painter) letter(texts []sheet.Text) {
	var fresh []lettering
	for _, t := range texts {
		l := p.lettering(t)
		if w, ok := p.lettered[l]; ok {
			if w != nil {
				w.used = true
			}
			continue
		}
		p.lettered[l] = nil // so that a repeated text is drawn once
		fresh = append(fresh, l)
	}
	if len(fresh) == 0 {
		return
	}
	for i, w := range draw(fresh) {
		w.used = true
		p.lettered[fresh[i]] = w
	}
}

func (p *painter) text(screen ebiten.FinalScreen, t sheet.Text) {
	w := p.lettered[p.lettering(t)]
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

// forget frees the texts that the last frame did not use: while a value is dragged, every
// frame has new ones.
func (p *painter) forget() {
	for l, w := range p.lettered {
		if !w.used {
			if w.tray.words--; w.tray.words == 0 {
				w.tray.image.Deallocate()
			}
			delete(p.lettered, l)
		}
		w.used = false
	}
}
