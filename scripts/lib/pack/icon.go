package pack

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/png"
	"math"

	"golang.org/x/image/vector"
)

// Shape is the shape of an icon's background.
type Shape int

const (
	// Rounded has rounded corners, transparent outside them.
	Rounded Shape = iota
	// Square fills the picture, for systems that round it themselves.
	Square
	// Maskable fills the picture and keeps the mark inside the circle of four fifths of
	// the width, which no system cuts off.
	Maskable
)

// maskableScale brings the mark's farthest point, the butt of the cue, inside the safe
// circle.
const maskableScale = 0.86

// Icon returns a Make for the mark as a PNG of size by size pixels.
func Icon(size int, shape Shape) func(context.Context, *Site) ([]byte, error) {
	return func(context.Context, *Site) ([]byte, error) {
		var out bytes.Buffer
		err := png.Encode(&out, drawIcon(size, shape))
		return out.Bytes(), err
	}
}

func drawIcon(size int, shape Shape) *image.NRGBA {
	c := canvas{image.NewNRGBA(image.Rect(0, 0, size, size)), float32(size) / 100, 0}
	radius := float32(0)
	if shape == Rounded {
		radius = corner
	}
	c.fill(ground, func(p *pen) { p.roundedSquare(radius) })
	if shape == Maskable {
		c.margin = 50 * (1 - maskableScale)
		c.scale *= maskableScale
	}
	c.fill(light, func(p *pen) {
		// The inner circle runs in the opposite direction, which makes it a hole.
		p.circle(ball.x, ball.y, ball.radius+ball.width/2, 1)
		p.circle(ball.x, ball.y, ball.radius-ball.width/2, -1)
	})
	for _, s := range mark {
		c.fill(s.colour, func(p *pen) { p.line(s) })
	}
	return c.image
}

// canvas maps the mark's coordinates to an image's pixels.
type canvas struct {
	image  *image.NRGBA
	scale  float32 // pixels per unit
	margin float32 // empty units on each side, at the scale of the whole picture
}

// pen is one filled path.
type pen struct {
	*vector.Rasterizer
	canvas
}

func (c canvas) fill(colour color.NRGBA, draw func(*pen)) {
	size := c.image.Rect.Dx()
	p := &pen{vector.NewRasterizer(size, size), c}
	draw(p)
	p.Draw(c.image, c.image.Rect, image.NewUniform(colour), image.Point{})
}

// at converts the mark's coordinates to pixels.
func (p *pen) at(x, y float32) (float32, float32) {
	offset := p.margin * float32(p.image.Rect.Dx()) / 100
	return offset + x*p.scale, offset + y*p.scale
}

func (p *pen) polygon(points [][2]float32) {
	p.MoveTo(p.at(points[0][0], points[0][1]))
	for _, q := range points[1:] {
		p.LineTo(p.at(q[0], q[1]))
	}
	p.ClosePath()
}

func (p *pen) line(s stroke) {
	dx, dy := s.x1-s.x0, s.y1-s.y0
	half := s.width / 2 / float32(math.Hypot(float64(dx), float64(dy)))
	nx, ny := -dy*half, dx*half
	p.polygon([][2]float32{
		{s.x0 + nx, s.y0 + ny}, {s.x1 + nx, s.y1 + ny}, {s.x1 - nx, s.y1 - ny}, {s.x0 - nx, s.y0 - ny},
	})
}

func (p *pen) circle(x, y, radius, turn float32) {
	p.polygon(arc(nil, x, y, radius, 0, 2*math.Pi*float64(turn)))
}

// roundedSquare covers the whole picture except for its corners.
func (p *pen) roundedSquare(radius float32) {
	near, far := radius, 100-radius
	var points [][2]float32
	for i, centre := range [][2]float32{{far, far}, {near, far}, {near, near}, {far, near}} {
		from := float64(i) * math.Pi / 2
		points = arc(points, centre[0], centre[1], radius, from, from+math.Pi/2)
	}
	p.polygon(points)
}

// arc appends a circle's arc as chords. 90 for a quarter turn are finer than a pixel on
// any icon here.
func arc(points [][2]float32, x, y, radius float32, from, to float64) [][2]float32 {
	chords := int(math.Round(90 * math.Abs(to-from) / (math.Pi / 2)))
	for i := range chords + 1 {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/float64(chords))
		points = append(points, [2]float32{x + radius*float32(cos), y + radius*float32(sin)})
	}
	return points
}
