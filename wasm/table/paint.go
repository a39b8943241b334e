//go:build js && wasm

package main

import (
	"image/color"
	"math"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/vector"

	"pivotbench/wasm/dom"
	"pivotbench/wasm/sheet"
)

// A painter paints display lists on the canvas: runs of lines and circles as one batch of
// triangles, texts as images.
type painter struct {
	inks     map[sheet.Ink]color.RGBA
	lettered map[lettering]*word
	vertices []ebiten.Vertex
	indices  []uint16
	white    *ebiten.Image
	rough    bool // the browser does not smooth edges
	ratio    float32
}

// paint draws a sheet without a background: the style sheet gives the element behind the
// canvas its colour.
func (p *painter) paint(screen ebiten.FinalScreen, sh *sheet.Sheet, ratio float64) {
	if p.white == nil {
		p.white = ebiten.NewImage(3, 3)
		p.white.Fill(color.White)
		p.lettered = map[lettering]*word{}
		p.rough = rough()
	}
	if p.inks == nil {
		p.inks = readInks()
	}
	p.ratio = float32(ratio)
	for _, item := range sh.Items {
		switch it := item.(type) {
		case sheet.Path:
			p.path(it)
		case sheet.Circle:
			p.circle(it)
		}
		if len(p.vertices) > 1<<15 {
			p.flush(screen)
		}
	}
	p.flush(screen)
	var texts []sheet.Text
	for _, item := range sh.Items {
		if t, ok := item.(sheet.Text); ok {
			texts = append(texts, t)
		}
	}
	p.letter(texts)
	for _, t := range texts { // texts come last, so that all shapes under them are one batch
		p.text(screen, t)
	}
	p.forget()
}

// flush draws the triangles collected so far.
func (p *painter) flush(screen ebiten.FinalScreen) {
	if len(p.indices) > 0 {
		screen.DrawTriangles(p.vertices, p.indices, p.white, &ebiten.DrawTrianglesOptions{AntiAlias: p.rough})
	}
	p.vertices, p.indices = p.vertices[:0], p.indices[:0]
}

// rough reports whether the browser does not smooth the edges of what is drawn straight
// on the screen, as when memory is short. Ebiten can smooth them itself, by drawing four
// times as many pixels.
func rough() bool {
	context := dom.Document.Call("querySelector", "canvas").Call("getContext", "webgl2")
	return !context.Call("getContextAttributes").Get("antialias").Bool()
}

func (p *painter) px(v float64) float32 { return float32(v) * p.ratio }

func (p *painter) path(it sheet.Path) {
	if it.Fill != "" {
		p.fill(outline(p, it.Points), it.Fill)
	}
	for _, piece := range dashed(it.Points, it.Stroke.Dash) {
		p.stroke(outline(p, piece), it.Stroke)
	}
}

func outline(p *painter, points []sheet.Point) *vector.Path {
	var path vector.Path
	for i, pt := range points {
		if i == 0 {
			path.MoveTo(p.px(pt.X), p.px(pt.Y))
		} else {
			path.LineTo(p.px(pt.X), p.px(pt.Y))
		}
	}
	return &path
}

func (p *painter) circle(c sheet.Circle) {
	if c.Fill != "" {
		var path vector.Path
		path.Arc(p.px(c.At.X), p.px(c.At.Y), p.px(c.Radius), 0, 2*math.Pi, vector.Clockwise)
		path.Close()
		p.fill(&path, c.Fill)
	}
	if c.Stroke.Dash == nil {
		var path vector.Path
		path.Arc(p.px(c.At.X), p.px(c.At.Y), p.px(c.Radius), 0, 2*math.Pi, vector.Clockwise)
		path.Close()
		p.stroke(&path, c.Stroke)
		return
	}
	const pieces = 72
	points := make([]sheet.Point, 0, pieces+1)
	for i := range pieces + 1 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / pieces)
		points = append(points, sheet.Point{X: c.At.X + c.Radius*cos, Y: c.At.Y + c.Radius*sin})
	}
	p.path(sheet.Path{Points: points, Stroke: c.Stroke})
}

func (p *painter) stroke(path *vector.Path, st sheet.Stroke) {
	from := len(p.vertices)
	p.vertices, p.indices = path.AppendVerticesAndIndicesForStroke(p.vertices, p.indices, &vector.StrokeOptions{
		Width: p.px(st.Width), LineJoin: vector.LineJoinRound, LineCap: vector.LineCapButt,
	})
	p.tint(from, st.Ink)
}

func (p *painter) fill(path *vector.Path, ink sheet.Ink) {
	from := len(p.vertices)
	p.vertices, p.indices = path.AppendVerticesAndIndicesForFilling(p.vertices, p.indices)
	p.tint(from, ink)
}

// tint colours the vertices from an index on.
func (p *painter) tint(from int, ink sheet.Ink) {
	c := p.inks[ink]
	for i := from; i < len(p.vertices); i++ {
		v := &p.vertices[i]
		v.SrcX, v.SrcY = 1, 1
		v.ColorR, v.ColorG, v.ColorB, v.ColorA = float32(c.R)/255, float32(c.G)/255, float32(c.B)/255, float32(c.A)/255
	}
}

// dashed cuts a line into the pieces of its dash. A solid line stays whole.
func dashed(points []sheet.Point, dash sheet.Dash) [][]sheet.Point {
	if dash == nil || len(points) == 0 {
		return [][]sheet.Point{points}
	}
	var out [][]sheet.Point
	on, left := 0, dash[0]
	piece := []sheet.Point{points[0]}
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		for done := 0.0; long-done > 0; {
			step := min(left, long-done)
			done += step
			left -= step
			at := sheet.Point{X: a.X + (b.X-a.X)*done/long, Y: a.Y + (b.Y-a.Y)*done/long}
			if on%2 == 0 {
				piece = append(piece, at)
			}
			if left > 0 {
				continue
			}
			if on%2 == 0 {
				out = append(out, piece)
			}
			on++
			left = dash[on%len(dash)]
			piece = []sheet.Point{at}
		}
	}
	if on%2 == 0 && len(piece) > 1 {
		out = append(out, piece)
	}
	return out
}
