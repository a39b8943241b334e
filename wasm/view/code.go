package view

import (
	"errors"
	"strconv"
	"strings"

	"pivotbench/wasm/qr"
)

const (
	// quiet is the white border of a QR code in modules (ISO/IEC 18004).
	quiet = 4

	// finest is as many modules a side as a phone still reads across a table:
	// of a hand's width on a screen a metre away, each is then about a minute
	// of arc wide, which a phone's camera resolves with a few pixels. Common
	// practice, no source.
	finest = 117
)

// ErrTooLong is said of a link that makes too fine a code.
var ErrTooLong = errors.New("too long for a code that a phone can read: copy the link, or save the file")

// Code is a text as a QR code, an svg element in black on white with its quiet
// border. Codes are read off screens with glare on them: at least level M, which
// mends 15 % of the code, and the strongest level that makes it no finer.
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
	svg.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="QR code of the link" shape-rendering="crispEdges" viewBox="0 0 ` +
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
