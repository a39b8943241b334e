package view_test

import (
	"image"
	"image/color"
	"image/draw"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/wasm/view"
)

var (
	side = regexp.MustCompile(`viewBox="0 0 (\d+) `)
	run  = regexp.MustCompile(`M(\d+) (\d+)h(\d+)v1h-`)
)

// picture paints a code as a screen does, so many pixels a module.
func picture(t *testing.T, svg string, scale int) *image.Gray {
	t.Helper()
	number := func(text string) int {
		n, err := strconv.Atoi(text)
		require.NoError(t, err)
		return n
	}
	n := number(side.FindStringSubmatch(svg)[1])
	img := image.NewGray(image.Rect(0, 0, n*scale, n*scale))
	for i := range img.Pix {
		img.Pix[i] = 0xff
	}
	runs := run.FindAllStringSubmatch(svg, -1)
	require.NotEmpty(t, runs)
	for _, m := range runs {
		x, y, long := number(m[1]), number(m[2]), number(m[3])
		for px := x * scale; px < (x+long)*scale; px++ {
			for py := y * scale; py < (y+1)*scale; py++ {
				img.SetGray(px, py, color.Gray{})
			}
		}
	}
	return img
}

// decode reads a picture with a decoder from another hand than the encoder's.
func decode(t *testing.T, img image.Image) string {
	t.Helper()
	bits, err := gozxing.NewBinaryBitmapFromImage(img)
	require.NoError(t, err)
	result, err := qrcode.NewQRCodeReader().Decode(bits, nil)
	require.NoError(t, err)
	return result.GetText()
}

// links are what the page shows as codes.
func links() []string {
	const base = "https://example.org/bench/#"
	out := []string{base + "v=1"}
	for _, p := range scenario.Presets {
		out = append(out, base+p.Link)
	}
	for _, l := range lesson.Shipped {
		out = append(out, base+lesson.Link{Lesson: l.Lesson, Shipped: l.Name}.Format())
	}
	own := lesson.Lesson{Title: "Tuesday, short & long", Steps: lesson.Shipped[2].Steps[1:4]}
	return append(out, base+lesson.Link{Lesson: own}.Format())
}

func TestCodesAreReadBack(t *testing.T) {
	for _, link := range links() {
		svg, err := view.Code(link)
		require.NoError(t, err, link)
		assert.Equal(t, link, decode(t, picture(t, svg, 4)), link)
	}
}

// A code with a white spot on it, a fifth of its side wide, is still read.
func TestCodesMendThemselves(t *testing.T) {
	for _, link := range links() {
		svg, err := view.Code(link)
		require.NoError(t, err)
		img := picture(t, svg, 4)
		n := img.Rect.Dx()
		spot := image.Rect(n*3/5, n*2/5, n*4/5, n*3/5)
		draw.Draw(img, spot, image.White, image.Point{}, draw.Src)
		assert.Equal(t, link, decode(t, img), link)
	}
}

func TestCodeOfTooMuch(t *testing.T) {
	for _, long := range []int{1000, 5000} {
		_, err := view.Code("https://example.org/#" + strings.Repeat("x", long))
		assert.Equal(t, view.ErrTooLong, err)
	}
	svg, err := view.Code("https://example.org/#" + strings.Repeat("x", 960))
	require.NoError(t, err)
	assert.Contains(t, svg, `viewBox="0 0 125 125"`, "117 modules and the border")
}
