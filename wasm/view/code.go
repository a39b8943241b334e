package view

import (
	"errors"
	"strconv"
	"strings"

	"pivotbench/wasm/qr"
)

const (
	// quiet is the width of a QR code's white border, in modules (ISO/IEC 18004).
	quiet = 4

	// finest is the largest number of modules per side that a phone can read from
	// across a table. When the code is a hand's width wide on a screen one metre
	// away, each module is then a few arc minutes wide, which is a few pixels of a
	// phone's camera. Common practice, no source.
	finest = 117
)

// ErrTooLong means that a link is too long for a code that a phone can read.
var ErrTooLong = errors.New("too long for a QR code that a phone can read: copy the link or save a file")

// Code returns a text as a QR code: an svg element in black on white, with its
// quiet border. The code may be read from a screen with glare, so it has at least
// error correction level M, which restores 15 % of the code, and the highest level
// that does not need more modules. It returns ErrTooLong when the code would have
// more than finest modules per side.
func Code(text string) (string, error) {
	size, err := qr.Size(len(text), qr.M)
	if err != nil || size > finest {
		return "", ErrTooLong
	}
	level := qr.M
	for _, stronger := range []qr.Level{qr.Q, qr.H} {
		if same, err := qr.Size(len(text), stronger); err == nil && same == size {
			level = stronger
		}
	}
	code, err := qr.Encode(text, level)
	if err != nil {
		return "", err
	}
	side := strconv.Itoa(code.Size + 2*quiet)
	var svg strings.Builder
	svg.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="QR code for the link" shape-rendering="crispEdges" viewBox="0 0 ` +
		side + " " + side + `"><path fill="#ffffff" d="M0 0h` + side + "v" + side + "h-" + side + `z"/><path fill="#000000" d="`)
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			long := 0
			for code.Black(x+long, y) {
				long++
			}
			if long > 0 {
				n := strconv.Itoa(long)
				svg.WriteString("M" + strconv.Itoa(x+quiet) + " " + strconv.Itoa(y+quiet) + "h" + n + "v1h-" + n + "z")
				x += long
			}
		}
	}
	svg.WriteString(`"/></svg>`)
	return svg.String(), nil
}
