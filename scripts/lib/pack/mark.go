package pack

import (
	"context"
	"fmt"
	"image/color"
	"strings"
)

// The mark is a shot in plan: the ball with its centre cross, the cue touching it right
// of centre, and the ball's path leaving a little left of straight up. Coordinates run
// from 0 to 100, right and down.
var (
	ground = color.NRGBA{0x10, 0x15, 0x1c, 0xff}
	light  = color.NRGBA{0xd8, 0xe0, 0xea, 0xff}
	amber  = color.NRGBA{0xf2, 0xb1, 0x34, 0xff}
	cyan   = color.NRGBA{0x3f, 0xc7, 0xd9, 0xff}

	ball = ring{50, 50, 24, 2.4}

	mark = []stroke{
		{36, 50, 64, 50, 1.6, light},
		{50, 9, 50, 64, 1.6, light},
		{50, 50, 42.8, 8, 3.6, cyan},
		{58, 94, 59.7, 73.4, 6, amber},
	}
)

// corner is the radius of the background's rounded corners.
const corner = 18

// ring is a circle drawn with a line of the given width, in the light colour.
type ring struct{ x, y, radius, width float32 }

// stroke is a straight line with square ends.
type stroke struct {
	x0, y0, x1, y1, width float32
	colour                color.NRGBA
}

// VectorIcon returns a Make for the mark as SVG.
func VectorIcon() func(context.Context, *Site) ([]byte, error) {
	return func(context.Context, *Site) ([]byte, error) {
		var b strings.Builder
		fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">`+"\n")
		fmt.Fprintf(&b, `<rect width="100" height="100" rx="%d" fill="%s"/>`+"\n", corner, webColour(ground))
		fmt.Fprintf(&b, `<circle cx="%g" cy="%g" r="%g" stroke-width="%g" stroke="%s" fill="none"/>`+"\n",
			ball.x, ball.y, ball.radius, ball.width, webColour(light))
		for _, s := range mark {
			fmt.Fprintf(&b, `<path d="M%g %gL%g %g" stroke-width="%g" stroke="%s"/>`+"\n",
				s.x0, s.y0, s.x1, s.y1, s.width, webColour(s.colour))
		}
		b.WriteString("</svg>\n")
		return []byte(b.String()), nil
	}
}

func webColour(c color.NRGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }
