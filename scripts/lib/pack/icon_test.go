package pack_test

import (
	"bytes"
	"context"
	"encoding/xml"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/pack"
)

var ground = color.NRGBA{0x10, 0x15, 0x1c, 0xff}

func icon(t *testing.T, size int, shape pack.Shape) image.Image {
	t.Helper()
	content, err := pack.Icon(size, shape)(context.Background(), nil)
	require.NoError(t, err)
	picture, err := png.Decode(bytes.NewReader(content))
	require.NoError(t, err)
	require.Equal(t, image.Rect(0, 0, size, size), picture.Bounds())
	return picture
}

func at(m image.Image, x, y int) color.NRGBA {
	return color.NRGBAModel.Convert(m.At(x, y)).(color.NRGBA)
}

func TestIconGround(t *testing.T) {
	assert.Zero(t, at(icon(t, 192, pack.Rounded), 0, 0).A, "clear outside the rounded corner")
	assert.Equal(t, ground, at(icon(t, 192, pack.Rounded), 96, 1))
	for _, shape := range []pack.Shape{pack.Square, pack.Maskable} {
		assert.Equal(t, ground, at(icon(t, 180, shape), 0, 0))
		assert.Equal(t, ground, at(icon(t, 180, shape), 179, 179))
	}
}

func TestMaskableKeepsTheMarkInTheSafeCircle(t *testing.T) {
	const size = 512
	m := icon(t, size, pack.Maskable)
	drawn := 0
	for y := range size {
		for x := range size {
			if at(m, x, y) == ground {
				continue
			}
			drawn++
			r := math.Hypot(float64(x)+0.5-size/2, float64(y)+0.5-size/2)
			require.LessOrEqual(t, r, 0.4*size, "%d, %d", x, y)
		}
	}
	assert.Greater(t, drawn, size*size/50, "the mark is there")
}

func TestVectorIconIsWellFormed(t *testing.T) {
	content, err := pack.VectorIcon()(context.Background(), nil)
	require.NoError(t, err)
	d := xml.NewDecoder(bytes.NewReader(content))
	elements := 0
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		if _, ok := token.(xml.StartElement); ok {
			elements++
		}
	}
	assert.Equal(t, 7, elements)
}
